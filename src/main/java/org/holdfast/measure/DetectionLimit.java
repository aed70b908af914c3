package org.holdfast.measure;

/**
 * What the estimator by threshold can see: the gap at which contact turns into a gap, found by running the estimator
 * itself on the model of the profile with the scan's point spread, plateau and bone.
 */
final class DetectionLimit {

    private final SampleClassifier classifier;
    private final FaceLayer face;
    private final double ceilingHu;
    private final double edgeShiftMm;

    /**
     * @param classifier the rule as it reads the scan
     * @param face facts of the implant's face
     * @param ceilingHu HU of the scale's ceiling; NaN where there is none
     * @param edgeShiftMm how far the edges that count lie beyond those that the exam itself shows, mm
     */
    DetectionLimit(SampleClassifier classifier, FaceLayer face, double ceilingHu, double edgeShiftMm) {
        this.classifier = classifier;
        this.face = face;
        this.ceilingHu = ceilingHu;
        this.edgeShiftMm = edgeShiftMm;
    }

    private static final double COARSE_STEP_MM = 0.05;
    private static final double RESOLUTION_MM = 0.005;
    /**
     * Noise of a window's mean over that of a voxel: trilinear interpolation alone leaves (2/3)³ = 0.30 of the variance
     * on average over all positions, 0.54 of the standard deviation; the window takes a little more off.
     */
    private static final double WINDOW_NOISE = 0.5;
    /** The implant's blur must stay so many standard deviations of a window's mean below the threshold. */
    private static final double NOISE_SD = 2;
    /** The point spread may be stated 10 % too small; the implant's flank depends steeply on it. */
    private static final double SIGMA_MISJUDGED = 1.1;
    /** The limit must not move by more than this if it is: the width within which a gap near the limit stays open. */
    private static final double SETTLED_MM = 0.2;
    /** A gap so much over the limit must not be called contact. */
    private static final double WELL_OVER_MM = 0.4;

    private static final double BEYOND_STEP_MM = 0.2;

    /**
     * The smallest gap that the estimator tells from contact.
     *
     * @param smallestVisibleGapMm for the point spread as stated, or why the estimator does not apply: a gap of 0 would
     *     not be called contact, or where there is no bone at all the implant's blur would come within noise of the
     *     threshold, so that contact could be called at every gap
     * @param ifBlurrierMm the same if the point spread is 10 % larger than stated; the gap limit of the settings where
     *     contact would then be called at every gap
     */
    record Limit(Stated smallestVisibleGapMm, Stated ifBlurrierMm) {

        /** Whether the limit hardly moves if the point spread is misjudged. */
        boolean isSettled() {
            return smallestVisibleGapMm.value().isPresent()
                    && ifBlurrierMm.value().getAsDouble()
                                    - smallestVisibleGapMm.value().getAsDouble()
                            <= SETTLED_MM;
        }

        static Limit not(String why) {
            return new Limit(Stated.not(why), Stated.not(why));
        }
    }

    /**
     * Finds the limit.
     *
     * @param model what the scan shows across the face
     * @param noiseSdHu standard deviation of a voxel's noise, HU; 0 if it is not known
     */
    Limit find(ProfileModel model, double noiseSdHu) {
        if (!isContact(model, 0, classifier)) {
            return Limit.not("bone below threshold beyond guard");
        }
        double margin = NOISE_SD * WINDOW_NOISE * noiseSdHu;
        double limit = turnMm(model);
        if (limit + RESOLUTION_MM >= classifier.settings().gapLimitMm()
                || readsBoneBeyond(limit, model, classifier.shiftedHu(-margin))) {
            return Limit.not("blur of the implant alone comes within noise of the threshold beyond the guard");
        }
        if (missesBoneBefore(limit, model, classifier.shiftedHu(margin))) {
            return Limit.not("bone comes within noise of the threshold beyond the guard");
        }
        return new Limit(Stated.of(limit), Stated.of(turnMm(model.withSigma(model.sigmaMm() * SIGMA_MISJUDGED))));
    }

    /** The gap at which contact turns into a gap, mm; the settings' gap limit if it never does. */
    private double turnMm(ProfileModel model) {
        double limit = classifier.settings().gapLimitMm();
        double contact = 0;
        while (isContact(model, contact + COARSE_STEP_MM, classifier)) {
            contact += COARSE_STEP_MM;
            if (contact >= limit) {
                return limit;
            }
        }
        double gap = contact + COARSE_STEP_MM;
        while (gap - contact > RESOLUTION_MM) {
            double middle = 0.5 * (contact + gap);
            if (isContact(model, middle, classifier)) {
                contact = middle;
            } else {
                gap = middle;
            }
        }
        return 0.5 * (contact + gap);
    }

    /**
     * Whether a gap that is well over the limit could be called contact. It can: bone between 2 and 4 mm raises the
     * level at which the implant's edge is sought, the edge moves inwards and the guard with it.
     */
    private boolean readsBoneBeyond(double limitMm, ProfileModel model, SampleClassifier cautious) {
        double end = classifier.settings().gapLimitMm() + BEYOND_STEP_MM;
        for (double gap = limitMm + WELL_OVER_MM; gap < end; gap += BEYOND_STEP_MM) {
            if (isContact(model, gap, cautious)) {
                return true;
            }
        }
        return false;
    }

    /** Whether a gap that is well under the limit could be missed as contact: noise hides bone that is hardly over it. */
    private boolean missesBoneBefore(double limitMm, ProfileModel model, SampleClassifier bold) {
        for (double gap = 0; gap <= limitMm - WELL_OVER_MM; gap += BEYOND_STEP_MM) {
            if (!isContact(model, gap, bold)) {
                return true;
            }
        }
        return false;
    }

    /** How wide a gap is for the place at which the rule finds bone, by this model. */
    GapWidth widths(ProfileModel model, double limitMm) {
        return GapWidth.of(
                gap -> {
                    Read read = read(model, gap, classifier);
                    return read.outcome != null && read.outcome.tissue() == Tissue.GAP
                            ? read.outcome.boneAtMm() - read.edgeMm
                            : Double.NaN;
                },
                limitMm,
                classifier.settings().gapLimitMm() + WELL_OVER_MM);
    }

    /** What the rule reads of the model; no outcome where no edge is found. */
    private record Read(double edgeMm, SampleClassifier.Outcome outcome) {}

    private Read read(ProfileModel model, double gapMm, SampleClassifier rule) {
        MeasurementSettings s = rule.settings();
        Profile seen = model.profile(-face.insideMm(), s.profileOutsideMm(), s.profileStepMm(), gapMm)
                .clippedAt(ceilingHu);
        ImplantEdge edge = ImplantEdge.find(seen, face, ceilingHu, model.sigmaMm(), s);
        double edgeMm = edge.tMm() + edgeShiftMm;
        return new Read(edgeMm, edge.obstacle() != null ? null : rule.classify(seen, edgeMm, Double.POSITIVE_INFINITY));
    }

    private boolean isContact(ProfileModel model, double gapMm, SampleClassifier rule) {
        Read read = read(model, gapMm, rule);
        return read.outcome != null && read.outcome.tissue() == Tissue.CONTACT;
    }
}
