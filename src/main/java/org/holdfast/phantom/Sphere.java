package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;

/**
 * A ball.
 *
 * @param centre its centre
 * @param radiusMm radius, mm, &gt; 0
 */
public record Sphere(PatientPoint centre, double radiusMm) implements Solid {

    public Sphere {
        Require.positive(radiusMm, "radiusMm");
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return radius(x, y, z) - radiusMm;
    }

    /** The surface is moved inwards by blur² / (distance from the centre), the first order of a blurred sphere. */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return CappedCylinder.roundShare(radius(x, y, z), radiusMm - insetMm, blurMm, 2);
    }

    private double radius(double x, double y, double z) {
        double dx = x - centre.x();
        double dy = y - centre.y();
        double dz = z - centre.z();
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }
}
