package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;

/**
 * A rod or screw resampled along its centre line into straight pictures: two planes at right angles that hold the line,
 * and cuts across it. Immutable and thread-safe; HU by trilinear interpolation, NaN outside the image.
 *
 * <p>The line is the part's refined centre line smoothed over 12 mm to both sides: a bend is straightened, while a sharp
 * step at a break stays in the picture (a line through every centroid would draw displaced ends in one row).
 */
public final class StraightenedPart {

    private static final double SMOOTH_MM = 12;

    private final HuVolume volume;
    private final List<PartAxis.Station> line;
    private final int halfWidth;
    private final double spacingMm;

    private StraightenedPart(HuVolume volume, List<PartAxis.Station> line, int halfWidth, double spacingMm) {
        this.volume = volume;
        this.line = List.copyOf(line);
        this.halfWidth = halfWidth;
        this.spacingMm = spacingMm;
    }

    /**
     * @param volume the exam
     * @param continuity the part in that exam; its stations give the rows, at least two
     * @param firstAcross direction that the first plane holds beside the line, as far as it lies across it
     * @param halfWidthMm how far the pictures reach to both sides of the line, mm, above 0 to 100
     * @param spacingMm distance of columns, mm, 0.05 to 5
     * @throws IllegalArgumentException if a number is out of its range or there are fewer than two stations
     */
    public static StraightenedPart of(
            HuVolume volume, Continuity continuity, PatientVector firstAcross, double halfWidthMm, double spacingMm) {
        if (!(halfWidthMm > 0 && halfWidthMm <= 100 && spacingMm >= 0.05 && spacingMm <= 5)) {
            throw new IllegalArgumentException("half width must lie in (0, 100] mm and spacing in [0.05, 5] mm, got "
                    + halfWidthMm + " and " + spacingMm);
        }
        List<Continuity.Station> stations = continuity.stations();
        if (stations.size() < 2) {
            throw new IllegalArgumentException("a line needs at least two stations, got " + stations.size());
        }
        List<PatientPoint> smooth = smoothed(stations);
        List<PartAxis.Station> line = new ArrayList<>();
        PatientVector u = firstAcross;
        for (int n = 0; n < smooth.size(); n++) {
            PatientPoint before = smooth.get(Math.max(0, n - 1));
            PatientPoint after = smooth.get(Math.min(smooth.size() - 1, n + 1));
            PatientVector along = after.minus(before).unit();
            PatientVector across = u.minus(along.times(u.dot(along)));
            u = across.norm() > 1e-6 * u.norm() ? across.unit() : along.anyPerpendicular();
            line.add(new PartAxis.Station(stations.get(n).atMm(), smooth.get(n), along, u, along.cross(u)));
        }
        return new StraightenedPart(volume, line, (int) Math.ceil(halfWidthMm / spacingMm - 1e-9), spacingMm);
    }

    /** At each station the straight line fitted to the stations round it, as many before as after, evaluated there. */
    private static List<PatientPoint> smoothed(List<Continuity.Station> stations) {
        double step = stations.get(1).atMm() - stations.get(0).atMm();
        int reach = Math.max(1, (int) Math.round(SMOOTH_MM / step));
        List<PatientPoint> smooth = new ArrayList<>();
        for (int n = 0; n < stations.size(); n++) {
            int from = Math.max(0, n - reach);
            int to = Math.min(stations.size() - 1, n + reach);
            double middle = 0.5 * (from + to);
            double x = 0;
            double y = 0;
            double z = 0;
            double dx = 0;
            double dy = 0;
            double dz = 0;
            double spread = 0;
            for (int m = from; m <= to; m++) {
                PatientPoint p = stations.get(m).pointMm();
                x += p.x();
                y += p.y();
                z += p.z();
                dx += (m - middle) * p.x();
                dy += (m - middle) * p.y();
                dz += (m - middle) * p.z();
                spread += (m - middle) * (m - middle);
            }
            int count = to - from + 1;
            double away = (n - middle) / spread;
            smooth.add(new PatientPoint(x / count + away * dx, y / count + away * dy, z / count + away * dz));
        }
        return smooth;
    }

    /** Rows of the pictures: one a station. */
    public int height() {
        return line.size();
    }

    /** Columns of the pictures, an odd number; the middle one is the line. */
    public int width() {
        return 2 * halfWidth + 1;
    }

    /** Distance of columns, mm. */
    public double spacingMm() {
        return spacingMm;
    }

    /** Distance of a row along the laid-out centre line from the part's first point, mm. */
    public double atMm(int row) {
        return line.get(row).atMm();
    }

    /** Place in patient space of the exam of a row and so far from the line along both directions across it. */
    public PatientPoint pointMm(int row, double firstMm, double secondMm) {
        return line.get(row).across(firstMm, secondMm);
    }

    /** HU of the plane along the line that holds the first direction, index column + width · row. */
    public float[] firstPlane() {
        return plane(1, 0);
    }

    /** HU of the plane along the line at right angles to the first, index column + width · row. */
    public float[] secondPlane() {
        return plane(0, 1);
    }

    /** HU of the cut across the line at a row, width × width, index column (first direction) + width · row (second). */
    public float[] cutAcross(int row) {
        float[] hu = new float[width() * width()];
        for (int n = 0; n < hu.length; n++) {
            hu[n] = (float) volume.sample(
                    pointMm(row, (n % width() - halfWidth) * spacingMm, (n / width() - halfWidth) * spacingMm));
        }
        return hu;
    }

    private float[] plane(double first, double second) {
        float[] hu = new float[Math.multiplyExact(width(), height())];
        for (int n = 0; n < hu.length; n++) {
            double across = (n % width() - halfWidth) * spacingMm;
            hu[n] = (float) volume.sample(pointMm(n / width(), first * across, second * across));
        }
        return hu;
    }
}
