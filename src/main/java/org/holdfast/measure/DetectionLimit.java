package org.holdfast.measure;

/**
 * What the estimator by threshold can see: the gap at which contact turns into a gap, found by running the estimator
 * itself on the model of the profile with the scan's point spread, plateau and bone.
 */
final class DetectionLimit {

    private static final double COARSE_STEP_MM = 0.05;
    private static final double RESOLUTION_MM = 0.005;

    private DetectionLimit() {}

    /**
     * The smallest gap that the estimator tells from contact, mm, or why the estimator does not apply: a gap of 0 would
     * not be called contact, or contact would be called at every gap.
     */
    static Stated smallestVisibleGapMm(
            ProfileModel model, SampleClassifier classifier, FaceLayer face, double ceilingHu) {
        if (!isContact(model, 0, classifier, face, ceilingHu)) {
            return Stated.not("bone below threshold beyond guard");
        }
        double limit = classifier.settings().gapLimitMm();
        double contact = 0;
        while (isContact(model, contact + COARSE_STEP_MM, classifier, face, ceilingHu)) {
            contact += COARSE_STEP_MM;
            if (contact >= limit) {
                return Stated.not("blur of the implant alone reads as bone beyond the guard");
            }
        }
        double gap = contact + COARSE_STEP_MM;
        while (gap - contact > RESOLUTION_MM) {
            double middle = 0.5 * (contact + gap);
            if (isContact(model, middle, classifier, face, ceilingHu)) {
                contact = middle;
            } else {
                gap = middle;
            }
        }
        return Stated.of(0.5 * (contact + gap));
    }

    private static boolean isContact(
            ProfileModel model, double gapMm, SampleClassifier classifier, FaceLayer face, double ceilingHu) {
        MeasurementSettings s = classifier.settings();
        Profile seen = model.profile(-face.insideMm(), s.profileOutsideMm(), s.profileStepMm(), gapMm)
                .clippedAt(ceilingHu);
        ImplantEdge edge = ImplantEdge.find(seen, face, ceilingHu, model.sigmaMm(), s);
        return edge.obstacle() == null
                && classifier
                                .classify(seen, edge.tMm(), Double.POSITIVE_INFINITY)
                                .tissue()
                        == Tissue.CONTACT;
    }
}
