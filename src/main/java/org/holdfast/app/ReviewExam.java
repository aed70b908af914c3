package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * One exam of a subject under review, as the subject's document names it. Immutable.
 *
 * @param index place in the order of time, from 0
 * @param label column label
 * @param folder folder with its series, that of the measured one where the document says
 * @param daysSinceSurgery days from the operation, where the document says the day
 * @param date day of the exam, where the document says
 * @param posture posture, where the document says
 * @param seriesUid the series that is measured, where the document says
 */
public record ReviewExam(
        int index,
        String label,
        Path folder,
        OptionalInt daysSinceSurgery,
        Optional<LocalDate> date,
        Optional<String> posture,
        Optional<String> seriesUid) {

    public ReviewExam {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(folder, "folder");
        Objects.requireNonNull(daysSinceSurgery, "daysSinceSurgery");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(posture, "posture");
        Objects.requireNonNull(seriesUid, "seriesUid");
    }

    /** The exam as a measurement is told of it. */
    ExamArgument argument() {
        return new ExamArgument(folder, seriesUid, Optional.of(label), date);
    }
}
