package org.holdfast.measure;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

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

    /**
     * The quantile of weighted values: the value at which the cumulative weight, counted to the middle of each value's own
     * weight and linear between, reaches the probability (for equal weights type 5 of Hyndman &amp; Fan); the end values
     * beyond the ends; NaN for none.
     *
     * @param values values in any order
     * @param weights weight of each value, &gt; 0
     */
    static double weighted(double[] values, double[] weights, double probability) {
        Integer[] order = IntStream.range(0, values.length).boxed().toArray(Integer[]::new);
        Arrays.sort(order, Comparator.comparingDouble(n -> values[n]));
        double wanted = probability * Arrays.stream(weights).sum();
        double before = 0;
        double lastMiddle = 0;
        double lastValue = Double.NaN;
        for (int n : order) {
            double middle = before + 0.5 * weights[n];
            if (middle >= wanted) {
                return Double.isNaN(lastValue)
                        ? values[n]
                        : lastValue + (values[n] - lastValue) * (wanted - lastMiddle) / (middle - lastMiddle);
            }
            before += weights[n];
            lastMiddle = middle;
            lastValue = values[n];
        }
        return lastValue;
    }
}
