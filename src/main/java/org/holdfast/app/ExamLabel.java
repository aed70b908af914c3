package org.holdfast.app;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.OptionalInt;

/** The column label of an exam: days and months since surgery. */
public final class ExamLabel {

    /** Mean length of a month in days: 365.25 / 12. */
    private static final double DAYS_PER_MONTH = 30.4375;
    /** Exams before this day after surgery are called by the operation. */
    private static final int SURGERY_DAYS = 14;

    private ExamLabel() {}

    /** Whole days from the operation to the exam; negative before it. */
    public static int daysSince(LocalDate operation, LocalDate exam) {
        return Math.toIntExact(ChronoUnit.DAYS.between(operation, exam));
    }

    /** Months from the operation to the exam, of mean length; negative before it. */
    static double monthsSince(int daysSinceSurgery) {
        return daysSinceSurgery / DAYS_PER_MONTH;
    }

    /** "surgery" for days 0 to 13, else whole months such as "6 mo"; negative before the operation; "undated" without. */
    public static String of(OptionalInt daysSinceSurgery) {
        if (daysSinceSurgery.isEmpty()) {
            return "undated";
        }
        int days = daysSinceSurgery.getAsInt();
        if (days >= 0 && days < SURGERY_DAYS) {
            return "surgery";
        }
        // Before the operation the label is negative even where it rounds to no month.
        return (days < 0 ? "-" : "") + Math.round(monthsSince(Math.abs(days))) + " mo";
    }
}
