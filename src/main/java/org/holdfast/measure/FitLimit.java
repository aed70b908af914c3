package org.holdfast.measure;

import java.util.Locale;

/**
 * What the estimator by fit can see: the smallest gap that it tells from contact, found by fitting profiles of the model
 * itself with this scan's blur, noise, implant and bone.
 *
 * <p>A gap counts as seen where the fitted gap lies so far over the limit of contact that noise and the unknown front
 * hide it in at most one case in 50; bone on the implant must by the same measure be called contact.
 */
final class FitLimit {

    private static final double STEP_MM = 0.05;
    /** One-sided 98 % of a normal distribution. */
    private static final double ONE_IN_FIFTY = 2.054;
    /** A gap of this multiple of the limit is what must be found (measurement definitions, section 8). */
    private static final double MULTIPLE = 1.2;

    private FitLimit() {}

    /**
     * The limit.
     *
     * @param known what is known of a typical sample, with the blur as the face shows it
     * @param truth fit of a typical sample, whose implant and bone are taken
     * @param column a typical sample's values, whose heights and numbers are taken
     * @param proportions how likely each thickness of the front is
     * @return mm, or why none can be stated
     */
    static Stated find(
            ProfileKnown known,
            FittedProfile truth,
            ValueColumn column,
            double[] proportions,
            MeasurementSettings settings) {
        Trial trial = new Trial(known, truth, column, proportions);
        double contact = settings.fit().contactGapMm();
        FittedProfile touching = trial.fit(0);
        if (touching == null || touching.gapMm() + ONE_IN_FIFTY * trial.spreadMm(touching) > contact) {
            return Stated.not(
                    touching == null
                            ? "the profile of this scan cannot be fitted"
                            : String.format(
                                    Locale.ROOT,
                                    "bone on the implant would be fitted with a gap of %.2f ± %.2f mm and be lost",
                                    touching.gapMm(),
                                    trial.spreadMm(touching)));
        }
        double limit = contact;
        for (double gap = contact; gap <= settings.gapLimitMm() / MULTIPLE; gap += STEP_MM) {
            FittedProfile fit = trial.fit(MULTIPLE * gap);
            if (fit == null || fit.gapMm() - ONE_IN_FIFTY * trial.spreadMm(fit) < contact) {
                limit = gap + STEP_MM;
            } else if (gap > limit + MULTIPLE * contact) {
                break;
            }
        }
        return limit * MULTIPLE > settings.gapLimitMm()
                ? Stated.not("no gap up to the limit would be told from contact")
                : Stated.of(limit);
    }

    /** Profiles of the model with a gap, on a typical sample's heights. */
    private static final class Trial {
        private final ProfileKnown known;
        private final FittedProfile truth;
        private final ValueColumn column;
        private final double[] proportions;
        private final double[] hu;
        private final LayeredProfile model;
        private final double[] x = new double[LayeredProfile.SIZE];

        Trial(ProfileKnown known, FittedProfile truth, ValueColumn column, double[] proportions) {
            this.known = known;
            this.truth = truth;
            this.column = column;
            this.proportions = proportions;
            this.hu = new double[column.size()];
            this.model = new LayeredProfile(known);
        }

        FittedProfile fit(double gapMm) {
            x[LayeredProfile.EDGE] = truth.edgeMm();
            x[LayeredProfile.GAP] = gapMm;
            x[LayeredProfile.PLATEAU] = truth.plateauHu();
            x[LayeredProfile.EXCESS] = truth.frontHu() - truth.deepHu();
            x[LayeredProfile.DEEP] = truth.deepHu();
            x[LayeredProfile.FLUID] = known.fluid().mean();
            x[LayeredProfile.SIGMA] = known.sigmaMm();
            x[LayeredProfile.THICKNESS] = truth.frontMm();
            for (int n = 0; n < hu.length; n++) {
                hu[n] = model.huAt(x, column.tMm()[n]);
            }
            return new ProfileFit(known)
                    .fit(column.tMm(), hu, column.weight(), hu.length)
                    .map(f -> f.weighted(proportions))
                    .orElse(null);
        }

        double spreadMm(FittedProfile fit) {
            return fit.gapSeMm();
        }
    }
}
