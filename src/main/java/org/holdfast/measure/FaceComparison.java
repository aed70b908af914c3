package org.holdfast.measure;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;

/**
 * One face held against its reference exam: change of mineral beside it, and bone in its pores. Of the reference exam only
 * the profiles under the samples are kept.
 */
public final class FaceComparison {

    private final Construct construct;
    private final Component component;
    private final MeasurementSettings settings;
    private final double[] cutsMm;
    private final ChangeMapMeasure change;
    private final PorousFillMeasure fill;

    /**
     * @param construct the construct on its reference exam
     * @param face the interface
     * @param settings thresholds
     */
    public FaceComparison(Construct construct, BoneInterface face, MeasurementSettings settings) {
        this.construct = construct;
        this.component = construct.component(face.component());
        this.settings = settings;
        List<List<PatchSample>> patches = face.patches().stream()
                .map(p -> p.samples(settings.sampleSpacingMm()))
                .toList();
        List<PatchSample> samples = patches.stream().flatMap(List::stream).toList();
        List<Component> others = construct.components().stream()
                .filter(c -> !c.id().equals(component.id()))
                .toList();
        this.cutsMm = FaceProfiles.cutsMm(samples, others, settings);
        this.change = new ChangeMapMeasure(samples, settings);
        this.fill = new PorousFillMeasure(component, patches, settings);
    }

    /** What the reference exam shows of the face; opaque, given back when later exams are compared. */
    public static final class Reference {
        private final ComparedFace face;

        private Reference(ComparedFace face) {
            this.face = face;
        }
    }

    /**
     * A later exam against the reference exam.
     *
     * @param change change of mineral beside the face, or why there is none
     * @param fill bone in the pores, or why it is not stated
     */
    public record Compared(Answer<ChangeMap> change, PorousFill fill) {

        /** Nothing to compare, and why. */
        static Compared not(String why) {
            return new Compared(Answer.not(why), PorousFill.not(why));
        }
    }

    /**
     * Keeps the reference exam.
     *
     * @param contact contact by threshold of the same exam
     */
    public Reference keep(ExamScan exam, ThresholdContact contact) {
        return new Reference(
                ComparedFace.read(construct, component, exam, contact, cutsMm, Optional.empty(), settings));
    }

    /**
     * Compares a later exam.
     *
     * @param contact contact by threshold of the same exam, with the reference exam's edges
     * @param disturbance metal that lies otherwise than on the reference exam
     */
    public Compared compare(ExamScan exam, ThresholdContact contact, Reference reference, Disturbance disturbance) {
        ComparedFace later =
                ComparedFace.read(construct, component, exam, contact, cutsMm, Optional.of(reference.face), settings);
        return new Compared(
                change.compare(reference.face, later, exam, disturbance), fill.compare(reference.face, later));
    }
}
