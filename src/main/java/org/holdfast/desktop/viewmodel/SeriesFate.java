package org.holdfast.desktop.viewmodel;

import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;

/**
 * What becomes of a series, in words.
 *
 * @param words such as "Measured here"
 * @param isMeasured whether numbers come from it
 */
public record SeriesFate(String words, boolean isMeasured) {

    /** What becomes of a series by what is decided now. */
    public static SeriesFate of(IntakeSeries series, IntakeExam exam, TakeInPlan plan) {
        if (plan.target().has(series)) {
            return new SeriesFate("In this subject already", false);
        }
        SeriesRole role = plan.roleOf(series);
        if (role != SeriesRole.LEAVE_OUT && plan.dateOf(exam).isEmpty()) {
            return new SeriesFate("Not used yet: a question is open", false);
        }
        return new SeriesFate(words(series, role), isMeasured(series, role));
    }

    /** What a role means for a series, for a list to choose from. */
    public static String words(IntakeSeries series, SeriesRole role) {
        return switch (role) {
            case MEASURE -> series.hasCaution() ? "Measured here, with a warning" : "Measured here";
            case CONFIRM -> series.kind() == Kind.FILM ? "Angles, ratios, breaks" : "Looked at; confirms nothing alone";
            case VIEW ->
                series.kind() == Kind.VOLUME || series.kind() == Kind.SLICES
                        ? "Kept for viewing"
                        : "Kept as a picture, never a stack";
            case LEAVE_OUT -> "Left out";
        };
    }

    private static boolean isMeasured(IntakeSeries series, SeriesRole role) {
        return role == SeriesRole.MEASURE || role == SeriesRole.CONFIRM && series.kind() == Kind.FILM;
    }
}
