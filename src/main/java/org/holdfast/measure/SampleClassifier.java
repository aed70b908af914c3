package org.holdfast.measure;

/**
 * The rule by threshold: what lies beyond the guard of one profile. The same rule reads the scan and the model of it, so
 * that the detection limit is that of the estimator itself. Immutable.
 *
 * @param guardMm nothing is concluded nearer to the edge than this
 * @param boneHu HU from which tissue counts as bone
 * @param settings the other thresholds
 */
record SampleClassifier(double guardMm, double boneHu, MeasurementSettings settings) {

    /** Length beyond the guard over which {@link #beyondGuardHu} averages, mm. */
    static final double BEYOND_MM = 2;

    /**
     * The outcome at a sample.
     *
     * @param tissue what was found
     * @param obstacle why nothing can be said, or null
     * @param boneAtMm t at which bone begins; NaN if none was found
     */
    record Outcome(Tissue tissue, Obstacle obstacle, double boneAtMm) {
        static Outcome notAssessable(Obstacle obstacle) {
            return new Outcome(Tissue.NOT_ASSESSABLE, obstacle, Double.NaN);
        }
    }

    /**
     * Reads a profile.
     *
     * @param profile HU along the normal
     * @param edgeMm place of the implant's edge
     * @param cutMm the profile may be read up to here, before other metal
     */
    Outcome classify(Profile profile, double edgeMm, double cutMm) {
        double start = edgeMm + guardMm;
        double step = settings.profileStepMm();
        double cut = Math.min(cutMm, cutBeforeUnknownMetal(profile, start));
        double artefactEnd = start + settings.artefactWindowMm();
        if (cut < Math.max(artefactEnd, start + settings.contactWithinMm() + settings.boneWindowMm())) {
            return Outcome.notAssessable(Obstacle.OTHER_METAL);
        }
        double darkest = profile.min(start, artefactEnd);
        if (Double.isNaN(darkest)) {
            return Outcome.notAssessable(Obstacle.OUTSIDE_IMAGE);
        }
        if (darkest < settings.darkHu()) {
            return Outcome.notAssessable(Obstacle.DARK_STREAK);
        }
        for (int n = 0; start + n * step - edgeMm < settings.gapLimitMm() - 1e-9; n++) {
            double t = start + n * step;
            if (t + settings.boneWindowMm() > Math.min(cut, profile.toMm()) + 1e-9) {
                return cut < profile.toMm()
                        ? Outcome.notAssessable(Obstacle.OTHER_METAL)
                        : new Outcome(Tissue.NO_BONE, null, Double.NaN);
            }
            double mean = profile.mean(t, t + settings.boneWindowMm());
            if (Double.isNaN(mean)) {
                return Outcome.notAssessable(Obstacle.OUTSIDE_IMAGE);
            }
            if (mean >= boneHu) {
                boolean atOnce = n * step <= settings.contactWithinMm() + 1e-9;
                return new Outcome(atOnce ? Tissue.CONTACT : Tissue.GAP, null, t);
            }
        }
        return new Outcome(Tissue.NO_BONE, null, Double.NaN);
    }

    /** The same rule with the bone threshold changed. */
    SampleClassifier shiftedHu(double byHu) {
        return new SampleClassifier(guardMm, boneHu + byHu, settings);
    }

    /** Mean HU over the 2 mm beyond the guard; NaN where not valid. */
    double beyondGuardHu(Profile profile, double edgeMm) {
        return profile.mean(edgeMm + guardMm, edgeMm + guardMm + BEYOND_MM);
    }

    /** Metal that is not laid out: the profile is cut before the first metal voxel beyond the guard. */
    private double cutBeforeUnknownMetal(Profile profile, double startMm) {
        for (int n = 0; n < profile.size(); n++) {
            if (profile.tMm(n) > startMm && profile.value(n) >= settings.metalHu()) {
                return profile.tMm(n) - settings.otherMetalMarginMm();
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
