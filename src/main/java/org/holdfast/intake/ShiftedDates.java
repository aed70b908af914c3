package org.holdfast.intake;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Shifts values of DA and DT (PS3.5, section 6.2) by days. A value that names no day, such as a year, cannot be shifted. */
final class ShiftedDates {

    private static final Pattern DATE = Pattern.compile("(\\d{4})(\\.?)(\\d{2})\\2(\\d{2})");
    private static final Pattern DATE_TIME =
            Pattern.compile("(\\d{8})(\\d{2}(?:\\d{2}(?:\\d{2}(?:\\.\\d{1,6})?)?)?)?(?:[+-]\\d{4})?");
    private static final Pattern TIME = Pattern.compile("\\d{2}(?::?\\d{2}(?::?\\d{2}(?:\\.\\d{1,6})?)?)?");
    private static final DateTimeFormatter WRITTEN = DateTimeFormatter.ofPattern("uuuuMMdd", Locale.ROOT);

    private ShiftedDates() {}

    /** A date, also in the old form 1993.04.30, written in today's form; empty if it is none. */
    static Optional<String> date(String value, int days) {
        Matcher parts = DATE.matcher(value);
        if (!parts.matches()) {
            return Optional.empty();
        }
        try {
            LocalDate date = LocalDate.of(
                    Integer.parseInt(parts.group(1)),
                    Integer.parseInt(parts.group(3)),
                    Integer.parseInt(parts.group(4)));
            LocalDate shifted = date.plusDays(days);
            return shifted.getYear() < 1 ? Optional.empty() : Optional.of(WRITTEN.format(shifted));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    /**
     * A date and time, whose time stays; empty if it is none. A UTC offset is left out, as it tells where the exam was
     * made; times of one place stay comparable without it.
     */
    static Optional<String> dateTime(String value, int days) {
        Matcher parts = DATE_TIME.matcher(value);
        if (!parts.matches()) {
            return Optional.empty();
        }
        String time = parts.group(2) == null ? "" : parts.group(2);
        return date(parts.group(1), days).map(date -> date + time);
    }

    /** Whether a value is a time of day, also in the old form 10:20:30. */
    static boolean isTime(String value) {
        return TIME.matcher(value).matches();
    }
}
