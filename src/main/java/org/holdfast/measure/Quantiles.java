package org.holdfast.measure;

import java.util.Arrays;

/** Order statistics of small sets of numbers. */
final class Quantiles {

    private Quantiles() {}

    /** The median (mean of the two middle values for an even count); NaN for none. */
    static double median(double[] values) {
        return quantile(values, 0.5);
    }

    /**
     * The quantile by linear interpolation between order statistics at (n − 1)·p (type 7 of Hyndman &amp; Fan, Am Stat
     * 1996;50:361); NaN for none.
     */
    static double quantile(double[] values, double probability) {
        if (values.length == 0) {
            return Double.NaN;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        double place = probability * (sorted.length - 1);
        int below = (int) Math.floor(place);
        int above = Math.min(sorted.length - 1, below + 1);
        return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
    }
}
