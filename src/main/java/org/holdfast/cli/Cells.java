package org.holdfast.cli;

import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.app.ExamResult;
import org.holdfast.measure.Stated;

/** Numbers as cells of a table; what is not stated is a dash. */
final class Cells {

    static final String NOT_STATED = "-";

    private Cells() {}

    static String day(ExamResult exam) {
        return exam.daysSinceSurgery().isPresent()
                ? String.valueOf(exam.daysSinceSurgery().getAsInt())
                : "?";
    }

    static String percent(Stated value) {
        return value.value().isPresent() ? percent(value.value().getAsDouble()) : NOT_STATED;
    }

    /** A truth: empty where nothing is known. */
    static String percent(OptionalDouble fraction) {
        return fraction.isPresent() ? percent(fraction.getAsDouble()) : "";
    }

    static String percent(double fraction) {
        return String.format(Locale.ROOT, "%.1f", 100 * fraction);
    }

    static String bounds(Stated low, Stated high) {
        return low.value().isPresent() && high.value().isPresent() ? percent(low) + "–" + percent(high) : NOT_STATED;
    }

    static String decimals(Stated value, int digits) {
        return decimals(value.value(), digits);
    }

    static String decimals(OptionalDouble value, int digits) {
        return value.isPresent() ? decimals(value.getAsDouble(), digits) : NOT_STATED;
    }

    static String decimals(double value, int digits) {
        return String.format(Locale.ROOT, "%." + digits + "f", value);
    }

    static String signed(double value, int digits) {
        String text = String.format(Locale.ROOT, "%+." + digits + "f", value);
        return text.matches("[+-]0\\.0*") ? text.substring(1) : text;
    }
}
