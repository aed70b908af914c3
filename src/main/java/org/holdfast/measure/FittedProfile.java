package org.holdfast.measure;

/**
 * What the fit says of one profile. Lengths mm, densities HU. The fits for several thicknesses of the bone's front are
 * kept, since the thickness cannot be told from the front's HU: the gap is their mean, weighted by how well each fits.
 * Immutable.
 *
 * @param fronts one fit a thickness of the front
 * @param weights weight of each, sums to 1
 */
record FittedProfile(Front[] fronts, double[] weights) {

    /**
     * The fit about one thickness of the front.
     *
     * @param frontMm the thickness that was taken beforehand
     * @param edgeMm edge of the implant
     * @param gapMm width of the gap, at least 0
     * @param plateauHu HU of the implant under the face
     * @param frontHu HU of the bone's front
     * @param deepHu HU of the deeper bone
     * @param fluidHu HU in the gap
     * @param sigmaMm blur along the normal
     * @param sigmaSeMm its standard error, 0 where it was held fixed
     * @param thicknessMm the thickness as fitted
     * @param cost half the robust sum of squares, priors included, in units of the noise
     * @param misfit √(sum of squares / degrees of freedom), in units of the noise: 1 where model and noise are right
     * @param gapNoiseSeMm standard error of the gap from noise alone
     * @param gapSeMm the same with the errors of point spread and fluid
     * @param conditioning how much the other parameters widen the gap's error: its standard error over that with all
     *     others known
     */
    record Front(
            double frontMm,
            double edgeMm,
            double gapMm,
            double plateauHu,
            double frontHu,
            double deepHu,
            double fluidHu,
            double sigmaMm,
            double sigmaSeMm,
            double thicknessMm,
            double cost,
            double misfit,
            double gapNoiseSeMm,
            double gapSeMm,
            double conditioning) {}

    /** A number of each thickness' fit. */
    interface Of {
        double value(Front front);
    }

    /** Weighted mean of a number over the thicknesses. */
    double mean(Of of) {
        double sum = 0;
        for (int n = 0; n < fronts.length; n++) {
            sum += weights[n] * of.value(fronts[n]);
        }
        return sum;
    }

    double gapMm() {
        return mean(Front::gapMm);
    }

    double edgeMm() {
        return mean(Front::edgeMm);
    }

    double plateauHu() {
        return mean(Front::plateauHu);
    }

    double frontHu() {
        return mean(Front::frontHu);
    }

    double deepHu() {
        return mean(Front::deepHu);
    }

    double sigmaMm() {
        return mean(Front::sigmaMm);
    }

    /** Part of the standard error that comes from noise, mm. */
    double gapNoiseSeMm() {
        return mean(Front::gapNoiseSeMm);
    }

    /** Part of the standard error that comes from the unknown thickness of the front, mm. */
    double gapFrontSeMm() {
        double gap = gapMm();
        return Math.sqrt(mean(f -> (f.gapMm() - gap) * (f.gapMm() - gap)));
    }

    /** Part of the standard error that comes from the errors of point spread and fluid, mm. */
    double gapBlurSeMm() {
        return Math.sqrt(mean(f -> Math.max(0, f.gapSeMm() * f.gapSeMm() - f.gapNoiseSeMm() * f.gapNoiseSeMm())));
    }

    /** Standard error of the gap, all parts together, mm. */
    double gapSeMm() {
        double front = gapFrontSeMm();
        return Math.sqrt(mean(f -> f.gapSeMm() * f.gapSeMm()) + front * front);
    }

    double misfit() {
        return mean(Front::misfit);
    }

    double conditioning() {
        return mean(Front::conditioning);
    }

    /** Mean thickness of the front, mm. */
    double frontMm() {
        return mean(Front::thicknessMm);
    }

    /**
     * The same fits weighted anew.
     *
     * @param prior how likely each thickness is beforehand, as from the rest of the face; sums to 1
     */
    FittedProfile weighted(double[] prior) {
        return new FittedProfile(fronts, weights(fronts, prior));
    }

    /**
     * Weights prior · exp(−(cost − smallest cost) / scale): Akaike's, the number of parameters being equal (Burnham and
     * Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, section 2.9). The scale takes a misfit larger
     * than the noise into account.
     */
    static double[] weights(Front[] fronts, double[] prior) {
        double least = Double.POSITIVE_INFINITY;
        double misfit = 1;
        for (Front front : fronts) {
            if (front.cost() < least) {
                least = front.cost();
                misfit = Math.max(1, front.misfit());
            }
        }
        double[] weights = new double[fronts.length];
        double sum = 0;
        for (int n = 0; n < fronts.length; n++) {
            weights[n] = prior[n] * Math.exp(-(fronts[n].cost() - least) / (misfit * misfit));
            sum += weights[n];
        }
        for (int n = 0; n < fronts.length; n++) {
            weights[n] = sum > 0 ? weights[n] / sum : prior[n];
        }
        return weights;
    }
}
