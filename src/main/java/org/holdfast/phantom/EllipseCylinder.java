package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A cylinder of elliptic section with flat ends: the simplest vertebral body.
 *
 * @param centre its centre
 * @param u direction of the first semi-axis, unit
 * @param v direction of the second semi-axis, unit
 * @param w direction of the height, unit; the three are orthonormal within 1e-6
 * @param semiUMm first semi-axis, mm, &gt; 0
 * @param semiVMm second semi-axis, mm, &gt; 0
 * @param halfWMm half the height, mm, &gt; 0
 */
public record EllipseCylinder(
        PatientPoint centre,
        PatientVector u,
        PatientVector v,
        PatientVector w,
        double semiUMm,
        double semiVMm,
        double halfWMm)
        implements Solid {

    /** Rounds of the search for the nearest point of the ellipse, from anywhere. */
    private static final int ROUNDS = 5;
    /** Rounds that do for points so near the ellipse that their share of it is asked for. */
    private static final int ROUNDS_NEAR = 2;

    public EllipseCylinder {
        Require.orthonormal(u, v, w);
        Require.positive(semiUMm, "semiUMm");
        Require.positive(semiVMm, "semiVMm");
        Require.positive(halfWMm, "halfWMm");
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double radial = ellipseDistance(along(u, x, y, z), along(v, x, y, z), semiUMm, semiVMm, ROUNDS);
        double axial = Math.abs(along(w, x, y, z)) - halfWMm;
        double outRadial = Math.max(radial, 0);
        double outAxial = Math.max(axial, 0);
        return Math.sqrt(outRadial * outRadial + outAxial * outAxial) + Math.min(Math.max(radial, axial), 0);
    }

    /** Along the axis exact; the curvature of the mantle (of the order of 1 / 20 mm) is neglected. */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double share = Slab.share(along(w, x, y, z), halfWMm - insetMm, blurMm);
        if (share == 0) {
            return 0;
        }
        double radial = ellipseDistance(along(u, x, y, z), along(v, x, y, z), semiUMm, semiVMm, ROUNDS_NEAR);
        return share * GaussianStep.below(-(radial + insetMm) / blurMm);
    }

    private double along(PatientVector axis, double x, double y, double z) {
        return (x - centre.x()) * axis.x() + (y - centre.y()) * axis.y() + (z - centre.z()) * axis.z();
    }

    /**
     * Signed distance of (x, y) from the ellipse with semi-axes a and b along the axes.
     *
     * <p>The nearest point is sought by replacing the ellipse, round after round, by the circle of curvature at the last
     * guess; the circle's centre lies on the evolute.
     */
    static double ellipseDistance(double x, double y, double a, double b, int rounds) {
        double px = Math.abs(x);
        double py = Math.abs(y);
        double start = Math.max(length(px / a, py / b), 1e-12);
        double c = px / a / start;
        double s = py / b / start;
        for (int n = 0; n < rounds; n++) {
            double ex = (a * a - b * b) * c * c * c / a;
            double ey = (b * b - a * a) * s * s * s / b;
            double radius = length(a * c - ex, b * s - ey);
            double towards = Math.max(length(px - ex, py - ey), 1e-12);
            c = clamp((ex + radius * (px - ex) / towards) / a);
            s = clamp((ey + radius * (py - ey) / towards) / b);
            double norm = Math.max(length(c, s), 1e-12);
            c /= norm;
            s /= norm;
        }
        double distance = length(px - a * c, py - b * s);
        boolean inside = (px / a) * (px / a) + (py / b) * (py / b) <= 1;
        return inside ? -distance : distance;
    }

    /** Not Math.hypot, which guards against overflow at ten times the cost. */
    private static double length(double x, double y) {
        return Math.sqrt(x * x + y * y);
    }

    private static double clamp(double share) {
        return share < 0 ? 0 : share > 1 ? 1 : share;
    }
}
