package org.holdfast.desktop.viewmodel;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Optional;

/**
 * A day as a person writes it: year, month, day, as no other order is understood everywhere. Immutable.
 *
 * @param day the day; empty if the text names none
 * @param fault what is wrong with the text; empty text if nothing is
 */
public record DayText(Optional<LocalDate> day, String fault) {

    /** How a day is written. */
    public static final String FORM = "year-month-day";

    /** Reads a text; none is no fault. */
    public static DayText of(String text) {
        String plain = text.strip();
        if (plain.isEmpty()) {
            return new DayText(Optional.empty(), "");
        }
        try {
            return new DayText(Optional.of(LocalDate.parse(plain)), "");
        } catch (DateTimeParseException e) {
            return new DayText(Optional.empty(), "expected a day such as 2031-04-12");
        }
    }
}
