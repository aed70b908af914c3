package org.holdfast.bench;

import java.util.Arrays;

/** What is said of repeated times. */
final class Times {

    private Times() {}

    /** The value that a share of all does not exceed; {@code share} 0.5 is the (upper) median. */
    static double quantile(double[] times, double share) {
        double[] sorted = times.clone();
        Arrays.sort(sorted);
        return sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
    }

    static double median(double[] times) {
        return quantile(times, 0.5);
    }

    static double millisSince(long nanos) {
        return 1e-6 * (System.nanoTime() - nanos);
    }
}
