package org.holdfast.measure;

/**
 * The rule by fit: what a fitted profile says of the tissue beside the implant. Immutable.
 *
 * @param boneHu HU from which tissue counts as bone
 * @param settings the other thresholds
 */
record FitClassifier(double boneHu, MeasurementSettings settings) {

    /**
     * The outcome of a fitted profile; bone begins at its edge + gap.
     *
     * @param fit the fit; null where there was none
     */
    SampleClassifier.Outcome classify(FittedProfile fit) {
        if (fit == null) {
            return SampleClassifier.Outcome.notAssessable(Obstacle.NO_EDGE);
        }
        if (fit.plateauHu() < settings.implantMinHu()) {
            return SampleClassifier.Outcome.notAssessable(Obstacle.NO_METAL);
        }
        if (fit.misfit() > settings.fit().maxMisfit()) {
            return SampleClassifier.Outcome.notAssessable(Obstacle.MISFIT);
        }
        double gap = fit.gapMm();
        if (!isBone(fit) || gap > settings.gapLimitMm()) {
            return new SampleClassifier.Outcome(Tissue.NO_BONE, null, Double.NaN);
        }
        if (fit.gapSeMm() > settings.fit().maxGapSeMm()) {
            return SampleClassifier.Outcome.notAssessable(Obstacle.UNCERTAIN);
        }
        return new SampleClassifier.Outcome(
                gap < settings.fit().contactGapMm() ? Tissue.CONTACT : Tissue.GAP, null, fit.edgeMm() + gap);
    }

    /** Whether front or deeper bone reach the threshold; a thin front counts as the mean over the bone window. */
    private boolean isBone(FittedProfile fit) {
        double window = settings.boneWindowMm();
        double share = Math.min(1, fit.frontMm() / window);
        double front = share * fit.frontHu() + (1 - share) * fit.deepHu();
        return Math.max(front, fit.deepHu()) >= boneHu;
    }
}
