package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A box at any angle.
 *
 * @param centre its centre
 * @param u first axis, unit
 * @param v second axis, unit
 * @param w third axis, unit; the three are orthonormal within 1e-6, of either handedness
 * @param halfUMm half its extent along u, mm, &gt; 0
 * @param halfVMm half its extent along v, mm, &gt; 0
 * @param halfWMm half its extent along w, mm, &gt; 0
 */
public record Box(
        PatientPoint centre,
        PatientVector u,
        PatientVector v,
        PatientVector w,
        double halfUMm,
        double halfVMm,
        double halfWMm)
        implements Solid {

    public Box {
        Require.orthonormal(u, v, w);
        Require.positive(halfUMm, "halfUMm");
        Require.positive(halfVMm, "halfVMm");
        Require.positive(halfWMm, "halfWMm");
    }

    /** A box along the axes of patient space. */
    public static Box upright(PatientPoint centre, double halfLeftMm, double halfPosteriorMm, double halfCranialMm) {
        return new Box(
                centre,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL,
                halfLeftMm,
                halfPosteriorMm,
                halfCranialMm);
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double a = Math.abs(along(u, x, y, z)) - halfUMm;
        double b = Math.abs(along(v, x, y, z)) - halfVMm;
        double c = Math.abs(along(w, x, y, z)) - halfWMm;
        double outA = Math.max(a, 0);
        double outB = Math.max(b, 0);
        double outC = Math.max(c, 0);
        return Math.sqrt(outA * outA + outB * outB + outC * outC) + Math.min(Math.max(a, Math.max(b, c)), 0);
    }

    /** Exact: the Gaussian is separable along the box's axes. */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double share = Slab.share(along(u, x, y, z), halfUMm - insetMm, blurMm);
        if (share == 0) {
            return 0;
        }
        share *= Slab.share(along(v, x, y, z), halfVMm - insetMm, blurMm);
        return share == 0 ? 0 : share * Slab.share(along(w, x, y, z), halfWMm - insetMm, blurMm);
    }

    private double along(PatientVector axis, double x, double y, double z) {
        return (x - centre.x()) * axis.x() + (y - centre.y()) * axis.y() + (z - centre.z()) * axis.z();
    }
}
