package org.holdfast.measure;

import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Filler;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;

/** The rules for the verdict on an interface in an exam. */
final class InterfaceVerdict {

    /** Muscle may read up to this (measurement definitions, section 1): host bone so faint may be no bone. */
    private static final double MUSCLE_HIGH_HU = 90;

    private InterfaceVerdict() {}

    /** What can be known before anything is measured: the implant's material, the exam's day and how it was made. */
    static Verdict before(BoneInterface face, Component component, ExamScan exam) {
        Acquisition acquisition = exam.acquisition();
        Verdict verdict = Verdict.answerable();
        if (acquisition.date().isPresent()
                && !component.isInOn(acquisition.date().get())) {
            return Verdict.because(
                    Verdict.Value.NOT_ANSWERABLE,
                    component.label() + " was not in the patient on "
                            + acquisition.date().get());
        }
        if (!component.material().hasMetalEdge()) {
            verdict = verdict.and(Verdict.because(
                    Verdict.Value.READER_ONLY, component.material().word() + " has no metal edge to measure from"));
        }
        if (!component.shape().hasDistance()) {
            verdict = verdict.and(Verdict.because(
                    Verdict.Value.READER_ONLY, "the body's surface was not read, its file lies elsewhere"));
        }
        if (acquisition.coneBeam() == Known.YES) {
            verdict = verdict.and(
                    Verdict.because(Verdict.Value.READER_ONLY, "cone-beam volume: geometry yes, HU measures refused"));
        }
        if (acquisition.artefactReduction() == Known.YES) {
            verdict = verdict.and(
                    Verdict.because(Verdict.Value.READER_ONLY, "artefact-reduced series alone: contact is not stated"));
        }
        verdict = verdict.and(ComponentVerdict.ofLoss(acquisition));
        if (face.filler() != Filler.NONE) {
            verdict = verdict.and(Verdict.because(
                    Verdict.Value.CHANGE_ONLY,
                    "filler " + face.filler().word() + ": mineral, graft included; only change from the first exam"));
        }
        return verdict;
    }

    /**
     * What the measurement itself showed. The headline is contact by fit where that is stated with its limit; what stands
     * in the threshold's way is then said beside it. Else the threshold alone decides.
     */
    static Verdict after(ThresholdContact contact, Answer<FittedContact> byFit, MeasurementSettings settings) {
        Verdict threshold = after(contact, settings);
        boolean isStated = byFit.value()
                .filter(f -> f.fraction().value().isPresent()
                        && f.smallestVisibleGapMm().value().isPresent())
                .isPresent();
        if (!isStated) {
            return threshold;
        }
        Verdict verdict = softHost(contact);
        for (String cause : threshold.causes()) {
            if (!verdict.causes().contains(cause)) {
                verdict =
                        verdict.and(new Verdict(Verdict.Value.ANSWERABLE, java.util.List.of("by threshold: " + cause)));
            }
        }
        return verdict;
    }

    /** What contact by threshold alone showed. */
    static Verdict after(ThresholdContact contact, MeasurementSettings settings) {
        if (contact.notAssessable() > 1 - 1e-9) {
            return Verdict.because(Verdict.Value.NOT_ANSWERABLE, mainObstacle(contact));
        }
        if (1 - contact.notAssessable() < settings.minAssessable()) {
            return Verdict.because(Verdict.Value.READER_ONLY, contact.fraction().why() + ": " + mainObstacle(contact));
        }
        if (contact.smallestVisibleGapMm().value().isEmpty()) {
            return Verdict.because(
                    Verdict.Value.READER_ONLY, contact.smallestVisibleGapMm().why());
        }
        return softHost(contact).and(limit(contact));
    }

    /** Named bone that reads as muscle may: without a look at the images the tissue is not known to be bone. */
    private static Verdict softHost(ThresholdContact contact) {
        double host = contact.hostHu().value().orElse(Double.POSITIVE_INFINITY);
        return host > MUSCLE_HIGH_HU
                ? Verdict.answerable()
                : Verdict.because(
                        Verdict.Value.CHANGE_ONLY,
                        String.format(
                                java.util.Locale.ROOT,
                                "host bone reads %.0f HU, no more than muscle may (%.0f HU): look whether it is bone",
                                host,
                                MUSCLE_HIGH_HU));
    }

    private static Verdict limit(ThresholdContact contact) {
        if (contact.frontHu().value().isEmpty()) {
            return Verdict.because(
                    Verdict.Value.CHANGE_ONLY,
                    "the smallest visible gap may be larger than stated: "
                            + contact.frontHu().why());
        }
        if (!contact.isLimitSettled()) {
            return Verdict.because(
                    Verdict.Value.CHANGE_ONLY,
                    String.format(
                            java.util.Locale.ROOT,
                            "the smallest visible gap hinges on the point spread: %.2f mm, or %.2f mm if that is 10 %%"
                                    + " larger than taken",
                            contact.smallestVisibleGapMm().value().getAsDouble(),
                            contact.smallestVisibleGapIfBlurrierMm().value().getAsDouble()));
        }
        return Verdict.answerable();
    }

    private static String mainObstacle(ThresholdContact contact) {
        return contact.obstacles().entrySet().stream()
                .max(java.util.Map.Entry.comparingByValue())
                .map(e -> e.getKey().words())
                .orElse("nothing assessable");
    }
}
