package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;

/**
 * The axis of true months. Immutable.
 *
 * @param left place of the first month shown, logical pixels
 * @param right place of the last
 * @param first first month shown
 * @param last last month shown, after the first
 */
public record MonthAxis(double left, double right, double first, double last) {

    private static final int[] STEPS = {1, 3, 6, 12, 24, 60};
    /** Ticks keep at least this far apart, logical pixels. */
    private static final double APART = 46;
    /** Six days, in months. */
    private static final double NEARLY = 0.2;

    public MonthAxis {
        if (!(last > first) || !(right > left)) {
            throw new IllegalArgumentException(
                    "an axis needs room, got " + left + " to " + right + " for months " + first + " to " + last);
        }
    }

    /** The axis for exams at these months: from surgery, or the first exam before it, to the last one. */
    public static MonthAxis of(List<Double> months, double left, double right) {
        double first = Math.min(0, months.stream().mapToDouble(m -> m).min().orElse(0));
        double last =
                Math.max(first + 1, months.stream().mapToDouble(m -> m).max().orElse(1));
        return new MonthAxis(left, Math.max(left + 1, right), Math.floor(first), toTick(last));
    }

    /** A last exam a few days short of a whole month ends at that month, so that the month has its tick on the axis. */
    private static double toTick(double last) {
        return Math.ceil(last) - last <= NEARLY ? Math.ceil(last) : last;
    }

    /** Place of a month. */
    public double x(double months) {
        return left + (months - first) / (last - first) * (right - left);
    }

    /** Whole months that get a tick. */
    public List<Integer> ticks() {
        double perMonth = (right - left) / (last - first);
        int step = STEPS[STEPS.length - 1];
        for (int n = STEPS.length - 1; n >= 0; n--) {
            if (STEPS[n] * perMonth >= APART) {
                step = STEPS[n];
            }
        }
        List<Integer> ticks = new ArrayList<>();
        for (int month = (int) Math.ceil(first / step) * step; month <= last; month += step) {
            ticks.add(month);
        }
        return ticks;
    }
}
