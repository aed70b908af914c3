package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Everything between two parallel planes.
 *
 * @param centre a point midway between the planes
 * @param axis unit normal of the planes; given at any length above 1e-12
 * @param halfMm half the distance between the planes, mm, &gt; 0
 */
public record Slab(PatientPoint centre, PatientVector axis, double halfMm) implements Solid {

    public Slab {
        axis = axis.unit();
        Require.positive(halfMm, "halfMm");
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return Math.abs(height(x, y, z)) - halfMm;
    }

    /** Exact: the difference of two Gaussian steps. */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return share(height(x, y, z), halfMm - insetMm, blurMm);
    }

    private double height(double x, double y, double z) {
        return (x - centre.x()) * axis.x() + (y - centre.y()) * axis.y() + (z - centre.z()) * axis.z();
    }

    /** Share of a Gaussian at {@code at} that lies in [−half, half]; 0 if half is not positive. */
    static double share(double at, double half, double blurMm) {
        if (half <= 0) {
            return 0;
        }
        return GaussianStep.below((half - at) / blurMm) - GaussianStep.below((-half - at) / blurMm);
    }
}
