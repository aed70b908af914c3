package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiPredicate;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Points on a surface in patient space (mm), each with its unit normal (out of the metal) and the area that it stands for
 * (mm²). Immutable and safe to share between threads.
 */
public final class SurfacePoints {

    /** Points in a cell whose normals differ by more than this stand for different faces: cosine. */
    private static final double SAME_FACE = 0.5;

    /** [x0, y0, z0, x1, …]; package-private, to be read only. */
    final double[] at;
    /** As {@link #at}. */
    final double[] normals;

    private final double[] areaMm2;

    SurfacePoints(double[] at, double[] normals, double[] areaMm2) {
        this.at = at;
        this.normals = normals;
        this.areaMm2 = areaMm2;
    }

    /**
     * From points and normals, each of which stands for the same area.
     *
     * @param points on the surface, mm
     * @param normals out of the metal, any length above 1e-12; as many as points
     * @param areaMm2 area of each, mm², &gt; 0
     */
    public static SurfacePoints of(List<PatientPoint> points, List<PatientVector> normals, double areaMm2) {
        if (points.size() != normals.size() || !(areaMm2 > 0)) {
            throw new IllegalArgumentException("as many normals as points and an area above 0 are needed, got "
                    + points.size() + ", " + normals.size() + ", " + areaMm2);
        }
        double[] at = new double[3 * points.size()];
        double[] out = new double[at.length];
        for (int n = 0; n < points.size(); n++) {
            put(at, n, points.get(n).x(), points.get(n).y(), points.get(n).z());
            PatientVector unit = normals.get(n).unit();
            put(out, n, unit.x(), unit.y(), unit.z());
        }
        double[] area = new double[points.size()];
        Arrays.fill(area, areaMm2);
        return new SurfacePoints(at, out, area);
    }

    private static void put(double[] into, int n, double x, double y, double z) {
        into[3 * n] = x;
        into[3 * n + 1] = y;
        into[3 * n + 2] = z;
    }

    /** Number of points. */
    public int size() {
        return areaMm2.length;
    }

    /** A point, mm. */
    public PatientPoint point(int n) {
        return new PatientPoint(at[3 * n], at[3 * n + 1], at[3 * n + 2]);
    }

    /** Its unit normal, out of the metal. */
    public PatientVector normal(int n) {
        return new PatientVector(normals[3 * n], normals[3 * n + 1], normals[3 * n + 2]);
    }

    /** The area for which a point stands, mm². */
    public double areaMm2(int n) {
        return areaMm2[n];
    }

    /** The area for which all points stand, mm². */
    public double totalAreaMm2() {
        return Arrays.stream(areaMm2).sum();
    }

    /** Mean of the points by area. */
    public PatientPoint centroid() {
        double[] sum = new double[3];
        for (int n = 0; n < size(); n++) {
            for (int axis = 0; axis < 3; axis++) {
                sum[axis] += areaMm2[n] * at[3 * n + axis];
            }
        }
        double total = totalAreaMm2();
        if (total == 0) {
            throw new IllegalArgumentException("no points have no centroid");
        }
        return new PatientPoint(sum[0] / total, sum[1] / total, sum[2] / total);
    }

    /** The points in a region. */
    public SurfacePoints inside(Predicate<PatientPoint> region) {
        int[] kept = new int[size()];
        int count = 0;
        for (int n = 0; n < size(); n++) {
            if (region.test(point(n))) {
                kept[count++] = n;
            }
        }
        return at(Arrays.copyOf(kept, count));
    }

    /** The points that, with their normals, meet a condition. */
    public SurfacePoints where(BiPredicate<PatientPoint, PatientVector> condition) {
        int[] kept = new int[size()];
        int count = 0;
        for (int n = 0; n < size(); n++) {
            if (condition.test(point(n), normal(n))) {
                kept[count++] = n;
            }
        }
        return at(Arrays.copyOf(kept, count));
    }

    /** The points with these indices, in that order. */
    SurfacePoints at(int[] indices) {
        double[] some = new double[3 * indices.length];
        double[] out = new double[some.length];
        double[] area = new double[indices.length];
        for (int n = 0; n < indices.length; n++) {
            System.arraycopy(at, 3 * indices[n], some, 3 * n, 3);
            System.arraycopy(normals, 3 * indices[n], out, 3 * n, 3);
            area[n] = areaMm2[indices[n]];
        }
        return new SurfacePoints(some, out, area);
    }

    /** The points of both. */
    public SurfacePoints and(SurfacePoints other) {
        return new SurfacePoints(join(at, other.at), join(normals, other.normals), join(areaMm2, other.areaMm2));
    }

    private static double[] join(double[] a, double[] b) {
        double[] both = Arrays.copyOf(a, a.length + b.length);
        System.arraycopy(b, 0, both, a.length, b.length);
        return both;
    }

    /** The same points in another place. */
    public SurfacePoints moved(RigidTransform hereToThere) {
        double[] m = hereToThere.toMatrix();
        double[] moved = new double[at.length];
        double[] turned = new double[at.length];
        for (int n = 0; n < size(); n++) {
            for (int row = 0; row < 3; row++) {
                double x = m[4 * row];
                double y = m[4 * row + 1];
                double z = m[4 * row + 2];
                moved[3 * n + row] = x * at[3 * n] + y * at[3 * n + 1] + z * at[3 * n + 2] + m[4 * row + 3];
                turned[3 * n + row] = x * normals[3 * n] + y * normals[3 * n + 1] + z * normals[3 * n + 2];
            }
        }
        return new SurfacePoints(moved, turned, areaMm2);
    }

    /**
     * About so many of the points, spread evenly over the surface; each stands for the area of those it replaces. The
     * same points give the same choice.
     *
     * @param count wanted, ≥ 1; all points where there are no more
     */
    public SurfacePoints thinned(int count) {
        if (count < 1) {
            throw new IllegalArgumentException("at least one point must stay, got " + count);
        }
        if (size() <= count) {
            return this;
        }
        double cellMm = Math.sqrt(totalAreaMm2() / count);
        SurfacePoints best = onePerCell(cellMm);
        // A surface crosses more cells than its area fills: a second round with cells to measure comes near the count.
        for (int round = 0; round < 2 && best.size() > 0; round++) {
            double ratio = Math.sqrt((double) best.size() / count);
            if (Math.abs(ratio - 1) > 0.05) {
                cellMm *= ratio;
                best = onePerCell(cellMm);
            }
        }
        return best;
    }

    /** The first point of each face in each cell of a cubic lattice. */
    private SurfacePoints onePerCell(double cellMm) {
        Map<Long, List<Integer>> cells = new HashMap<>();
        int[] kept = new int[size()];
        double[] area = new double[size()];
        int count = 0;
        for (int n = 0; n < size(); n++) {
            long key = cellKey(n, cellMm);
            List<Integer> inCell = cells.computeIfAbsent(key, k -> new ArrayList<>(2));
            int same = -1;
            for (int slot : inCell) {
                if (cosine(kept[slot], n) > SAME_FACE) {
                    same = slot;
                }
            }
            if (same < 0) {
                same = count++;
                kept[same] = n;
                inCell.add(same);
            }
            area[same] += areaMm2[n];
        }
        SurfacePoints chosen = at(Arrays.copyOf(kept, count));
        return new SurfacePoints(chosen.at, chosen.normals, Arrays.copyOf(area, count));
    }

    private double cosine(int a, int b) {
        return normals[3 * a] * normals[3 * b]
                + normals[3 * a + 1] * normals[3 * b + 1]
                + normals[3 * a + 2] * normals[3 * b + 2];
    }

    private long cellKey(int n, double cellMm) {
        return cellKey(at[3 * n], at[3 * n + 1], at[3 * n + 2], cellMm);
    }

    /** A number for the cubic cell of a point; cells further apart than 2²⁰ may share one. */
    static long cellKey(double x, double y, double z, double cellMm) {
        long i = (long) Math.floor(x / cellMm) & 0x1FFFFF;
        long j = (long) Math.floor(y / cellMm) & 0x1FFFFF;
        long k = (long) Math.floor(z / cellMm) & 0x1FFFFF;
        return i << 42 | j << 21 | k;
    }
}
