package org.holdfast.measure;

import org.holdfast.construct.Component;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;

/** The rules for the verdict on a component in an exam, before anything is measured on it. */
public final class ComponentVerdict {

    private ComponentVerdict() {}

    /** What the component's material, the exam's day and the way it was made allow. */
    public static Verdict of(Component component, Acquisition acquisition) {
        Verdict verdict = ofImage(component, acquisition);
        if (verdict.value() == Verdict.Value.NOT_ANSWERABLE) {
            return verdict;
        }
        if (acquisition.artefactReduction() == Known.YES) {
            verdict = verdict.and(Verdict.because(
                    Verdict.Value.CHANGE_ONLY,
                    "artefact-reduced series: it can draw a break or a zone and hide one; what only it shows, or only it"
                            + " does not show, is unconfirmed"));
        }
        return verdict.and(ofLoss(acquisition));
    }

    /** What any measure on the component needs: the component in the patient, a metal edge, HU that can be trusted. */
    static Verdict ofImage(Component component, Acquisition acquisition) {
        if (acquisition.date().isPresent()
                && !component.isInOn(acquisition.date().get())) {
            return Verdict.because(
                    Verdict.Value.NOT_ANSWERABLE,
                    component.label() + " was not in the patient on "
                            + acquisition.date().get());
        }
        Verdict verdict = Verdict.answerable();
        if (!component.material().hasMetalEdge()) {
            verdict = verdict.and(Verdict.because(
                    Verdict.Value.READER_ONLY, component.material().word() + " has no metal edge to measure from"));
        }
        if (acquisition.coneBeam() == Known.YES) {
            verdict = verdict.and(
                    Verdict.because(Verdict.Value.READER_ONLY, "cone-beam volume: geometry yes, HU measures refused"));
        }
        return verdict;
    }

    /** What compression with loss asks to bear in mind. */
    static Verdict ofLoss(Acquisition acquisition) {
        return acquisition
                .lossy()
                .map(loss -> Verdict.because(
                        Verdict.Value.ANSWERABLE, "images compressed with loss (" + loss.words() + "): HU may be off"))
                .orElseGet(Verdict::answerable);
    }
}
