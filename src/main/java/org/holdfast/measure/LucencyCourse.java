package org.holdfast.measure;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;

/**
 * The zone round one screw through a subject's exams: the reference exam fixes stretch, host bone and baseline, the others
 * keep them. Exams are given one after the other, the reference exam first, each with the screw's own pose.
 */
public final class LucencyCourse {

    private final Construct construct;
    private final Component component;
    private final MeasurementSettings settings;
    private final ScrewZones zones;
    private ScrewZones.Reference reference;
    private String referenceSha256;

    /**
     * @param construct the construct on its reference exam
     * @param component a screw
     * @param settings thresholds
     * @throws IllegalArgumentException if the component is no screw
     */
    public LucencyCourse(Construct construct, Component component, MeasurementSettings settings) {
        this.construct = construct;
        this.component = component;
        this.settings = settings;
        this.zones = new ScrewZones(construct, component, settings);
    }

    /**
     * One exam of the course.
     *
     * @param verdict what can be asked
     * @param lucency the zone, or why there is none
     * @param key key of the result for staleness
     */
    public record Exam(Verdict verdict, Answer<ScrewLucency> lucency, String key) {}

    /** Measures one exam; the first that its verdict allows to measure is taken for the reference exam. */
    public Exam measure(ExamScan exam) {
        String first = referenceSha256 == null ? exam.seriesSha256() : referenceSha256;
        String key = StaleKey.of(settings, construct, List.of(first, exam.seriesSha256()));
        Verdict before = LucencyVerdict.before(component, exam);
        if (before.value().compareTo(Verdict.Value.READER_ONLY) >= 0) {
            return new Exam(before, Answer.not(String.join("; ", before.causes())), key);
        }
        ScrewZones.Measured measured =
                reference == null ? zones.measureReference(exam) : zones.measureFollowUp(exam, reference);
        if (reference == null && measured.reference().isPresent()) {
            reference = measured.reference().get();
            referenceSha256 = exam.seriesSha256();
        }
        return new Exam(before.and(after(measured.lucency())), measured.lucency(), key);
    }

    /** What the measurement itself showed. */
    private static Verdict after(Answer<ScrewLucency> lucency) {
        Optional<ScrewLucency> value = lucency.value();
        if (value.isEmpty()) {
            return Verdict.because(Verdict.Value.NOT_ANSWERABLE, lucency.why());
        }
        Answer<ScrewLucency.Zone> fitted = value.get().byFit();
        if (fitted.value().isEmpty()) {
            return Verdict.because(Verdict.Value.READER_ONLY, fitted.why());
        }
        Stated mean = fitted.value().get().largestMeanMm();
        return mean.value().isPresent() ? Verdict.answerable() : Verdict.because(Verdict.Value.READER_ONLY, mean.why());
    }

    /** The screw. */
    public Component component() {
        return component;
    }
}
