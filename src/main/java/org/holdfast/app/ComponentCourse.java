package org.holdfast.app;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ComponentVerdict;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.ContinuityMeasure;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.LucencyCourse;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.Migration;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.StaleKey;
import org.holdfast.measure.Verdict;

/** One component through a subject's exams: the first exam that it can be measured in fixes what the others keep. */
final class ComponentCourse {

    private static final String NO_SCREW = "lucency is stated of screws";
    private static final String NO_BAR = "continuity is stated of screws and rods";

    private final Construct construct;
    private final Component component;
    private final MeasurementSettings settings;
    private final Optional<ContinuityMeasure> continuity;
    private final Optional<LucencyCourse> zones;
    private ContinuityMeasure.Reference bendOrNull;
    private String referenceSha256OrNull;

    ComponentCourse(Construct construct, Component component, MeasurementSettings settings, Measurement.Scope scope) {
        this.construct = construct;
        this.component = component;
        this.settings = settings;
        this.continuity = ContinuityMeasure.appliesTo(component)
                ? Optional.of(new ContinuityMeasure(construct, component, settings))
                : Optional.empty();
        this.zones = component.kind().isScrew() && scope == Measurement.Scope.ALL
                ? Optional.of(new LucencyCourse(construct, component, settings))
                : Optional.empty();
    }

    /** The courses of all components of a construct. */
    static List<ComponentCourse> ofAll(Construct construct, MeasurementSettings settings, Measurement.Scope scope) {
        return construct.components().stream()
                .map(component -> new ComponentCourse(construct, component, settings, scope))
                .toList();
    }

    /** The component. */
    Component component() {
        return component;
    }

    /**
     * Measures one exam.
     *
     * @param exam the exam at the construct's pose
     * @param poses where the exam's parts and bones lie
     * @param migration the component's migration
     */
    ComponentExam measure(ExamScan exam, ExamPoses poses, List<Migration> migration) {
        Verdict verdict = ComponentVerdict.of(component, exam.acquisition());
        if (verdict.value() == Verdict.Value.NOT_ANSWERABLE) {
            return without(exam, verdict, List.of());
        }
        if (verdict.value() == Verdict.Value.READER_ONLY) {
            return without(exam, verdict, migration);
        }
        if (referenceSha256OrNull == null) {
            referenceSha256OrNull = exam.seriesSha256();
        }
        ExamScan atPart = exam.at(poses.ofPart(component.id()));
        return new ComponentExam(
                component, exam.label(), verdict, lucency(atPart), continuity(atPart), migration, key(exam));
    }

    /** An exam in which the component cannot be measured. */
    ComponentExam refused(ExamScan exam, String why) {
        return without(exam, new Verdict(Verdict.Value.NOT_ANSWERABLE, List.of(why)), List.of());
    }

    private ComponentExam without(ExamScan exam, Verdict verdict, List<Migration> migration) {
        String why = String.join("; ", verdict.causes());
        return new ComponentExam(
                component, exam.label(), verdict, Answer.not(why), Answer.not(why), migration, key(exam));
    }

    private Answer<ScrewLucency> lucency(ExamScan exam) {
        return zones.isEmpty()
                ? Answer.not(NO_SCREW)
                : zones.get().measure(exam).lucency();
    }

    private Answer<Continuity> continuity(ExamScan exam) {
        if (continuity.isEmpty()) {
            return Answer.not(NO_BAR);
        }
        ContinuityMeasure.Measured measured = bendOrNull == null
                ? continuity.get().measureReference(exam)
                : continuity.get().measureFollowUp(exam, bendOrNull);
        bendOrNull = measured.reference();
        return measured.continuity();
    }

    private String key(ExamScan exam) {
        String reference = referenceSha256OrNull == null ? exam.seriesSha256() : referenceSha256OrNull;
        return StaleKey.of(settings, construct, List.of(reference, exam.seriesSha256()));
    }
}
