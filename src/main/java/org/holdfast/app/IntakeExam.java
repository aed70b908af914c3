package org.holdfast.app;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * The series of one patient that were made on one day. Immutable.
 *
 * @param id names it in its session
 * @param date the day, by the files; empty if they do not say
 * @param dateSource which attribute the day was taken from; empty text without a day
 * @param series its series, the one proposed for measuring first
 * @param notes what a person should know about it
 */
public record IntakeExam(
        String id, Optional<LocalDate> date, String dateSource, List<IntakeSeries> series, List<IntakeNote> notes) {

    public IntakeExam {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(date, "date");
        series = List.copyOf(series);
        notes = List.copyOf(notes);
    }
}
