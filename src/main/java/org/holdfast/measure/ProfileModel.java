package org.holdfast.measure;

import org.apache.commons.numbers.gamma.Erfc;

/**
 * What a scan would show across a face of known make: implant | gap | front of the bone | deeper bone, piecewise
 * constant along the normal and blurred by a Gaussian. Immutable.
 *
 * <p>HU(t) = Σ level · (Φ((t − from)/σ) − Φ((t − to)/σ)) over the pieces, t = 0 at the implant's true edge.
 *
 * @param plateauHu HU of the implant under the face
 * @param fluidHu HU in the gap
 * @param frontHu HU of the bone's front
 * @param frontMm thickness of the front, mm
 * @param deepHu HU of the deeper bone
 * @param sigmaMm standard deviation of the blur along the normal, mm
 */
record ProfileModel(double plateauHu, double fluidHu, double frontHu, double frontMm, double deepHu, double sigmaMm) {

    /** The same layers under another blur. */
    ProfileModel withSigma(double otherSigmaMm) {
        return new ProfileModel(plateauHu, fluidHu, frontHu, frontMm, deepHu, otherSigmaMm);
    }

    /** HU at t for a gap of a width, both mm. */
    double hu(double tMm, double gapMm) {
        double beyondEdge = normalCdf(tMm / sigmaMm);
        double beyondGap = normalCdf((tMm - gapMm) / sigmaMm);
        double beyondFront = normalCdf((tMm - gapMm - frontMm) / sigmaMm);
        return plateauHu
                + (fluidHu - plateauHu) * beyondEdge
                + (frontHu - fluidHu) * beyondGap
                + (deepHu - frontHu) * beyondFront;
    }

    /** The profile over [from, to] at a step, all mm, for a gap of a width. */
    Profile profile(double fromMm, double toMm, double stepMm, double gapMm) {
        double[] hu = new double[(int) Math.round((toMm - fromMm) / stepMm) + 1];
        for (int n = 0; n < hu.length; n++) {
            hu[n] = hu(fromMm + n * stepMm, gapMm);
        }
        return new Profile(fromMm, stepMm, hu);
    }

    /** Φ, the standard normal distribution function. */
    static double normalCdf(double x) {
        return 0.5 * Erfc.value(-x / Math.sqrt(2));
    }
}
