package org.holdfast.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;

/**
 * What {@link Measurement} found.
 *
 * @param construct the construct as measured
 * @param settings thresholds used
 * @param exams one an exam that could be read, oldest first where dated
 * @param films exams of radiographs, which are listed and not measured
 * @param findings what is about the input as a whole, exams that could not be read included
 */
public record ContactReport(
        Construct construct,
        MeasurementSettings settings,
        List<ExamResult> exams,
        List<FilmResult> films,
        List<Finding> findings) {

    public ContactReport {
        exams = List.copyOf(exams);
        films = List.copyOf(films);
        findings = List.copyOf(findings);
    }

    /** A report without radiographs. */
    public ContactReport(
            Construct construct, MeasurementSettings settings, List<ExamResult> exams, List<Finding> findings) {
        this(construct, settings, exams, List.of(), findings);
    }

    /** Whether an exam of that label is of radiographs. */
    public boolean isFilm(String label) {
        return films.stream().anyMatch(film -> film.label().equals(label));
    }

    /** What was found in an exam; empty if none of that label was measured. */
    public Optional<ExamResult> exam(String label) {
        return exams.stream().filter(exam -> exam.label().equals(label)).findFirst();
    }

    /** What was found of an interface in an exam; empty if nothing was. */
    public Optional<InterfaceExam> of(String examLabel, String interfaceId) {
        return exam(examLabel).flatMap(exam -> exam.parts().stream()
                .filter(part -> part.face().id().equals(interfaceId))
                .findFirst());
    }

    /** The same with more findings about the input as a whole. */
    ContactReport with(List<Finding> more) {
        List<Finding> all = new ArrayList<>(findings);
        all.addAll(more);
        return new ContactReport(construct, settings, exams, films, all);
    }
}
