package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A round cylinder with flat ends.
 *
 * @param p centre of one end
 * @param q centre of the other end, elsewhere
 * @param radiusMm radius, mm, &gt; 0
 */
public record CappedCylinder(PatientPoint p, PatientPoint q, double radiusMm) implements Solid {

    public CappedCylinder {
        Require.positive(radiusMm, "radiusMm");
        Require.positive(p.distanceTo(q), "distance of the ends");
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double at = along(x, y, z);
        double radial = radius(x, y, z, at) - radiusMm;
        double axial = Math.abs(at) - 0.5 * p.distanceTo(q);
        double outRadial = Math.max(radial, 0);
        double outAxial = Math.max(axial, 0);
        return Math.sqrt(outRadial * outRadial + outAxial * outAxial) + Math.min(Math.max(radial, axial), 0);
    }

    /**
     * Along the axis exact; across it the surface is moved inwards by blur² / (2 · distance from the axis), the first
     * order of a blurred curved surface.
     */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double at = along(x, y, z);
        double share = Slab.share(at, 0.5 * p.distanceTo(q) - insetMm, blurMm);
        return share == 0 ? 0 : share * roundShare(radius(x, y, z, at), radiusMm - insetMm, blurMm, 1);
    }

    /** Distance along the axis from the cylinder's middle. */
    private double along(double x, double y, double z) {
        double length = p.distanceTo(q);
        return ((x - 0.5 * (p.x() + q.x())) * (q.x() - p.x())
                        + (y - 0.5 * (p.y() + q.y())) * (q.y() - p.y())
                        + (z - 0.5 * (p.z() + q.z())) * (q.z() - p.z()))
                / length;
    }

    private double radius(double x, double y, double z, double at) {
        double dx = x - 0.5 * (p.x() + q.x());
        double dy = y - 0.5 * (p.y() + q.y());
        double dz = z - 0.5 * (p.z() + q.z());
        return Math.sqrt(Math.max(0, dx * dx + dy * dy + dz * dz - at * at));
    }

    /**
     * Share of a Gaussian inside a round surface: Φ(−(r − radius + curvatures · blur² / (2 r)) / blur).
     *
     * @param curvatures 1 for a cylinder, 2 for a sphere
     */
    static double roundShare(double r, double radius, double blurMm, int curvatures) {
        if (radius <= 0) {
            return 0;
        }
        double shift = curvatures * blurMm * blurMm / (2 * Math.max(r, 0.5 * radius));
        return GaussianStep.below((radius - r - shift) / blurMm);
    }

    /** The direction from p to q, unit. */
    public PatientVector axis() {
        return q.minus(p).unit();
    }
}
