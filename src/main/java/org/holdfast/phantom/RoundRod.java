package org.holdfast.phantom;

import java.util.List;
import org.holdfast.geometry.PatientPoint;

/** Everything within a radius of a line through several points: a rod with round ends and round bends. */
public final class RoundRod implements Solid {

    private final double[] points;
    private final double[] inverseSquares;
    private final double radiusMm;

    /**
     * @param points the centre line, at least two points, no two neighbours in one place
     * @param radiusMm radius, mm, &gt; 0
     */
    public RoundRod(List<PatientPoint> points, double radiusMm) {
        Require.positive(radiusMm, "radiusMm");
        if (points.size() < 2) {
            throw new IllegalArgumentException("a rod needs at least two points, got " + points.size());
        }
        this.points = new double[3 * points.size()];
        this.inverseSquares = new double[points.size() - 1];
        for (int n = 0; n < points.size(); n++) {
            PatientPoint p = points.get(n);
            this.points[3 * n] = p.x();
            this.points[3 * n + 1] = p.y();
            this.points[3 * n + 2] = p.z();
            if (n > 0) {
                double length = p.distanceTo(points.get(n - 1));
                Require.positive(length, "distance of rod points " + (n - 1) + " and " + n);
                inverseSquares[n - 1] = 1 / (length * length);
            }
        }
        this.radiusMm = radiusMm;
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return Math.sqrt(squaredDistanceFromLine(x, y, z)) - radiusMm;
    }

    /** The surface is taken as that of a cylinder; at the round ends and bends this leaves an error of blur² / (2 r). */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return CappedCylinder.roundShare(Math.sqrt(squaredDistanceFromLine(x, y, z)), radiusMm - insetMm, blurMm, 1);
    }

    private double squaredDistanceFromLine(double x, double y, double z) {
        double best = Double.POSITIVE_INFINITY;
        for (int n = 0; n + 5 < points.length; n += 3) {
            double ax = points[n + 3] - points[n];
            double ay = points[n + 4] - points[n + 1];
            double az = points[n + 5] - points[n + 2];
            double dx = x - points[n];
            double dy = y - points[n + 1];
            double dz = z - points[n + 2];
            double t = (dx * ax + dy * ay + dz * az) * inverseSquares[n / 3];
            t = t < 0 ? 0 : t > 1 ? 1 : t;
            dx -= t * ax;
            dy -= t * ay;
            dz -= t * az;
            best = Math.min(best, dx * dx + dy * dy + dz * dz);
        }
        return best;
    }
}
