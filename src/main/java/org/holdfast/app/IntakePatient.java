package org.holdfast.app;

import java.util.List;
import java.util.Objects;

/**
 * The exams of one patient among what was found; named by a letter, never by the patient's name. Immutable.
 *
 * @param name such as "patient A"
 * @param exams the exams by date, undated ones last
 * @param notes what a person should know, such as two names under one number
 */
public record IntakePatient(String name, List<IntakeExam> exams, List<IntakeNote> notes) {

    public IntakePatient {
        Objects.requireNonNull(name, "name");
        exams = List.copyOf(exams);
        notes = List.copyOf(notes);
    }

    /** All series of all exams, in their order. */
    public List<IntakeSeries> series() {
        return exams.stream().flatMap(exam -> exam.series().stream()).toList();
    }

    /**
     * The exam that a series belongs to.
     *
     * @throws IllegalArgumentException if the patient has no such series
     */
    public IntakeExam examOf(String seriesId) {
        return exams.stream()
                .filter(exam -> exam.series().stream().anyMatch(s -> s.id().equals(seriesId)))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no series " + seriesId));
    }
}
