package org.holdfast.measure;

import org.holdfast.construct.Component;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;

/** The rules for the verdict on the zone round a screw in an exam, before anything is measured. */
final class LucencyVerdict {

    private LucencyVerdict() {}

    static Verdict before(Component component, ExamScan exam) {
        Acquisition acquisition = exam.acquisition();
        Verdict verdict = ComponentVerdict.ofImage(component, acquisition);
        return verdict.value() == Verdict.Value.NOT_ANSWERABLE
                ? verdict
                : verdict.and(ComponentVerdict.ofLoss(acquisition))
                        .and(artefactReduction(acquisition.artefactReduction()));
    }

    /** Artefact reduction can draw a zone and can hide one. */
    private static Verdict artefactReduction(Known used) {
        return switch (used) {
            case YES ->
                Verdict.because(
                        Verdict.Value.READER_ONLY,
                        "artefact-reduced series alone: a zone, or none, is unconfirmed until another series or a"
                                + " radiograph says the same");
            case UNKNOWN ->
                Verdict.because(
                        Verdict.Value.ANSWERABLE,
                        "not known whether the series is artefact-reduced: if it is, a zone, or none, is unconfirmed");
            case NO -> Verdict.answerable();
        };
    }
}
