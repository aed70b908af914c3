package org.holdfast.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * Places true months since surgery along a chart. Immutable.
 *
 * <p>The axis runs from surgery, or the first exam if that was earlier, to the last exam, and at least over three
 * months. Ticks stand at the usual follow-up times 0, 3, 6, 12, 24, then every year; before surgery every year.
 */
final class TimeAxis {

    private static final double SHORTEST_MONTHS = 3;
    private static final double[] EARLY_TICKS = {0, 3, 6};
    private static final int MONTHS_PER_YEAR = 12;
    /** A tick just beyond the last exam is shown when the axis reaches it within this share of its length. */
    private static final double MARGIN_SHARE = 0.02;

    private final double firstMonth;
    private final double lastMonth;
    private final double leftPx;
    private final double rightPx;

    TimeAxis(List<CourseExam> exams, double leftPx, double rightPx) {
        double first = Math.min(0, exams.get(0).monthsSinceSurgery());
        double last =
                Math.max(first + SHORTEST_MONTHS, exams.get(exams.size() - 1).monthsSinceSurgery());
        double margin = MARGIN_SHARE * (last - first);
        this.firstMonth = first - margin;
        this.lastMonth = last + margin;
        this.leftPx = leftPx;
        this.rightPx = rightPx;
    }

    /** Place of a time, logical pixels. */
    double x(double months) {
        return leftPx + (months - firstMonth) / (lastMonth - firstMonth) * (rightPx - leftPx);
    }

    /** Months at which ticks stand, rising. */
    List<Double> ticks() {
        List<Double> ticks = new ArrayList<>();
        for (int year = (int) Math.floor(firstMonth / MONTHS_PER_YEAR); year < 0; year++) {
            addIfShown(ticks, year * MONTHS_PER_YEAR);
        }
        for (double tick : EARLY_TICKS) {
            addIfShown(ticks, tick);
        }
        for (int month = MONTHS_PER_YEAR; month <= lastMonth; month += MONTHS_PER_YEAR) {
            addIfShown(ticks, month);
        }
        return ticks;
    }

    private void addIfShown(List<Double> ticks, double month) {
        if (month >= firstMonth && month <= lastMonth) {
            ticks.add(month);
        }
    }
}
