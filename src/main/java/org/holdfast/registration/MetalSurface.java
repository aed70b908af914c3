package org.holdfast.registration;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Points where a volume crosses a level, finer than its voxels: one on every edge of the voxel grid that crosses it, by
 * linear interpolation, with the normal from the HU gradient. Edges to voxels without tissue and edges across a hole of
 * the stack give none; sheared and irregular grids are taken as they are.
 */
public final class MetalSurface {

    private static final int CHUNK = 16;

    private final HuVolume volume;
    private final VolumeGrid grid;
    private final double levelHu;
    private final Predicate<PatientPoint> region;

    private MetalSurface(HuVolume volume, double levelHu, Predicate<PatientPoint> region) {
        this.volume = volume;
        this.grid = volume.grid();
        this.levelHu = levelHu;
        this.region = region;
    }

    /** All surface points of a volume at a level, in the order of slices. */
    public static SurfacePoints of(HuVolume volume, double levelHu, Progress progress) {
        return of(volume, levelHu, p -> true, progress);
    }

    /**
     * The surface points at a level that lie in a region.
     *
     * @param levelHu HU of the surface, finite
     * @param region patient space of the volume; asked for surface points only, from several threads
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static SurfacePoints of(HuVolume volume, double levelHu, Predicate<PatientPoint> region, Progress progress) {
        if (!Double.isFinite(levelHu)) {
            throw new IllegalArgumentException("a level must be finite, got " + levelHu);
        }
        MetalSurface surface = new MetalSurface(volume, levelHu, region);
        int slices = volume.grid().slices();
        int chunks = (slices + CHUNK - 1) / CHUNK;
        List<Gathered> parts = IntStream.range(0, chunks)
                .parallel()
                .mapToObj(chunk -> {
                    progress.stopIfCancelled();
                    return surface.gather(chunk * CHUNK, Math.min(slices, (chunk + 1) * CHUNK));
                })
                .toList();
        return Gathered.join(parts);
    }

    private Gathered gather(int first, int end) {
        int size = grid.columns() * grid.rows();
        float[] here = volume.copySlice(first, new float[size]);
        float[] next = new float[size];
        Gathered found = new Gathered();
        for (int k = first; k < end; k++) {
            boolean hasNext = k + 1 < grid.slices();
            if (hasNext) {
                volume.copySlice(k + 1, next);
            }
            gatherSlice(k, here, hasNext && !grid.isHoleAfter(k) ? next : null, found);
            float[] swap = here;
            here = next;
            next = swap;
        }
        return found;
    }

    private void gatherSlice(int k, float[] here, float[] next, Gathered found) {
        int columns = grid.columns();
        float level = (float) levelHu;
        for (int j = 0; j < grid.rows(); j++) {
            int row = j * columns;
            boolean hasBelow = j + 1 < grid.rows();
            for (int i = 0; i < columns; i++) {
                int v = row + i;
                boolean in = here[v] >= level;
                if (i + 1 < columns && here[v + 1] >= level != in) {
                    cross(0, i, j, k, here[v], here[v + 1], found);
                }
                if (hasBelow && here[v + columns] >= level != in) {
                    cross(1, i, j, k, here[v], here[v + columns], found);
                }
                if (next != null && next[v] >= level != in) {
                    cross(2, i, j, k, here[v], next[v], found);
                }
            }
        }
    }

    /** One edge of the grid that crosses the level; a NaN at either end gives no point. */
    private void cross(int axis, int i, int j, int k, double a, double b, Gathered found) {
        double f = (levelHu - a) / (b - a);
        int i1 = axis == 0 ? i + 1 : i;
        int j1 = axis == 1 ? j + 1 : j;
        int k1 = axis == 2 ? k + 1 : k;
        double[] g = gradient(i, j, k);
        double[] h = gradient(i1, j1, k1);
        double gx = -((1 - f) * g[0] + f * h[0]);
        double gy = -((1 - f) * g[1] + f * h[1]);
        double gz = -((1 - f) * g[2] + f * h[2]);
        double length = Math.sqrt(gx * gx + gy * gy + gz * gz);
        if (!(length > 1e-6)) {
            return;
        }
        PatientPoint p = place(axis, i, j, k, f);
        if (region.test(p)) {
            PatientVector n = new PatientVector(gx / length, gy / length, gz / length);
            found.add(p, n, areaMm2(axis, k, n));
        }
    }

    private PatientPoint place(int axis, int i, int j, int k, double f) {
        PatientPoint origin = axis == 2 ? grid.sliceOrigin(k).towards(grid.sliceOrigin(k + 1), f) : grid.sliceOrigin(k);
        return origin.along(grid.rowDirection(), (axis == 0 ? i + f : i) * grid.columnSpacingMm())
                .along(grid.columnDirection(), (axis == 1 ? j + f : j) * grid.rowSpacingMm());
    }

    /**
     * The area of surface for which a crossing stands: edges along a direction d cross an element A in A |n·d| / s places,
     * s their cross-section; the squares of n's components weight the three directions so that they add up to A.
     */
    private double areaMm2(int axis, int k, PatientVector n) {
        int last = grid.slices() - 1;
        int lower = Math.min(k, Math.max(0, last - 1));
        PatientVector step =
                last == 0 ? grid.normal() : grid.sliceOrigin(lower + 1).minus(grid.sliceOrigin(lower));
        double pitch = step.dot(grid.normal());
        return switch (axis) {
            case 0 -> grid.rowSpacingMm() * pitch * Math.abs(n.dot(grid.rowDirection()));
            case 1 -> grid.columnSpacingMm() * pitch * Math.abs(n.dot(grid.columnDirection()));
            default ->
                grid.columnSpacingMm() * grid.rowSpacingMm() * pitch / step.norm() * Math.abs(n.dot(step.unit()));
        };
    }

    /** HU gradient per mm at a voxel, NaN where it cannot be told. */
    private double[] gradient(int i, int j, int k) {
        double alongRow = difference(0, i, j, k, grid.columns()) / grid.columnSpacingMm();
        double alongColumn = difference(1, i, j, k, grid.rows()) / grid.rowSpacingMm();
        int lower = k > 0 && !grid.isHoleAfter(k - 1) && !Double.isNaN(volume.hu(i, j, k - 1)) ? k - 1 : k;
        int upper = k + 1 < grid.slices() && !grid.isHoleAfter(k) && !Double.isNaN(volume.hu(i, j, k + 1)) ? k + 1 : k;
        double alongNormal = 0;
        if (upper > lower) {
            // The step between slices may lean: what it shows of the gradient in the slice is taken off.
            PatientVector step = grid.sliceOrigin(upper).minus(grid.sliceOrigin(lower));
            double rise = volume.hu(i, j, upper) - volume.hu(i, j, lower);
            alongNormal =
                    (rise - step.dot(grid.rowDirection()) * alongRow - step.dot(grid.columnDirection()) * alongColumn)
                            / step.dot(grid.normal());
        }
        PatientVector u = grid.rowDirection();
        PatientVector v = grid.columnDirection();
        PatientVector w = grid.normal();
        return new double[] {
            alongRow * u.x() + alongColumn * v.x() + alongNormal * w.x(),
            alongRow * u.y() + alongColumn * v.y() + alongNormal * w.y(),
            alongRow * u.z() + alongColumn * v.z() + alongNormal * w.z()
        };
    }

    /** HU per voxel step in the slice: central where both neighbours carry tissue, else one-sided. */
    private double difference(int axis, int i, int j, int k, int count) {
        int at = axis == 0 ? i : j;
        double before = at > 0 ? neighbour(axis, i, j, k, -1) : Double.NaN;
        double after = at + 1 < count ? neighbour(axis, i, j, k, 1) : Double.NaN;
        double here = volume.hu(i, j, k);
        if (Double.isNaN(before)) {
            return Double.isNaN(after) ? 0 : after - here;
        }
        return Double.isNaN(after) ? here - before : 0.5 * (after - before);
    }

    private double neighbour(int axis, int i, int j, int k, int step) {
        return axis == 0 ? volume.hu(i + step, j, k) : volume.hu(i, j + step, k);
    }

    /** Surface points of one run of slices. */
    private static final class Gathered {
        private double[] at = new double[384];
        private double[] normals = new double[384];
        private double[] area = new double[128];
        private int count;

        void add(PatientPoint p, PatientVector n, double areaMm2) {
            if (count == area.length) {
                area = Arrays.copyOf(area, 2 * count);
                at = Arrays.copyOf(at, 6 * count);
                normals = Arrays.copyOf(normals, 6 * count);
            }
            at[3 * count] = p.x();
            at[3 * count + 1] = p.y();
            at[3 * count + 2] = p.z();
            normals[3 * count] = n.x();
            normals[3 * count + 1] = n.y();
            normals[3 * count + 2] = n.z();
            area[count++] = areaMm2;
        }

        static SurfacePoints join(List<Gathered> parts) {
            int total = 0;
            for (Gathered part : parts) {
                total = Math.addExact(total, part.count);
            }
            double[] at = new double[Math.multiplyExact(3, total)];
            double[] normals = new double[at.length];
            double[] area = new double[total];
            int from = 0;
            for (Gathered part : parts) {
                System.arraycopy(part.at, 0, at, 3 * from, 3 * part.count);
                System.arraycopy(part.normals, 0, normals, 3 * from, 3 * part.count);
                System.arraycopy(part.area, 0, area, from, part.count);
                from += part.count;
            }
            return new SurfacePoints(at, normals, area);
        }
    }
}
