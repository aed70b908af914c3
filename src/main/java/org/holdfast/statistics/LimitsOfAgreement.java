package org.holdfast.statistics;

import java.util.Locale;

/**
 * How far one measurement may lie from another: bias and 95 % limits of agreement of a sample of differences.
 *
 * <p>bias = mean of the differences d; SD = √(Σ(d − bias)² / (n − 1)); limits = bias ± 1.96 · SD. About 95 % of further
 * differences lie within them if the differences are near to normally distributed and do not depend on the size of what
 * is measured; neither is checked here. All in the unit of the differences.
 *
 * <p>Source: Bland JM, Altman DG. Statistical methods for assessing agreement between two methods of clinical
 * measurement. Lancet 1986;327:307–310, and Measuring agreement in method comparison studies. Stat Methods Med Res
 * 1999;8:135–160, section 2; with 1.96 as in the second, not 2 as in the first.
 */
public sealed interface LimitsOfAgreement {

    /** Half the width of the limits in standard deviations. */
    double STANDARD_DEVIATIONS = 1.96;

    /**
     * The estimate. Immutable.
     *
     * @param n number of differences, at least 2
     * @param bias their mean
     * @param sd their standard deviation, with n − 1
     */
    record Estimate(int n, double bias, double sd) implements LimitsOfAgreement {

        /** Lower 95 % limit. */
        public double lower() {
            return bias - STANDARD_DEVIATIONS * sd;
        }

        /** Upper 95 % limit. */
        public double upper() {
            return bias + STANDARD_DEVIATIONS * sd;
        }
    }

    /**
     * No estimate. Immutable.
     *
     * @param reason why not, for a person
     */
    record NotEstimable(String reason) implements LimitsOfAgreement {}

    /**
     * The limits of a sample of differences; one pass for the mean, one for the squares around it, so that a large bias
     * costs no digits.
     *
     * @param differences measured minus truth, or first minus second, one for each object; any order; not changed
     * @return the estimate; not estimable for fewer than two differences
     * @throws IllegalArgumentException if a difference is NaN or infinite
     */
    static LimitsOfAgreement ofDifferences(double[] differences) {
        double sum = 0;
        for (int i = 0; i < differences.length; i++) {
            if (!Double.isFinite(differences[i])) {
                throw new IllegalArgumentException(
                        String.format(Locale.ROOT, "difference %d must be finite, got %s", i, differences[i]));
            }
            sum += differences[i];
        }
        int n = differences.length;
        if (n < 2) {
            return new NotEstimable("limits of agreement need at least 2 differences, got " + n);
        }
        double bias = sum / n;
        double squares = 0;
        for (double difference : differences) {
            squares += (difference - bias) * (difference - bias);
        }
        return new Estimate(n, bias, Math.sqrt(squares / (n - 1)));
    }

    /**
     * The limits of first minus second, pair by pair.
     *
     * @throws IllegalArgumentException if the arrays differ in length or a difference is not finite
     */
    static LimitsOfAgreement ofPairs(double[] first, double[] second) {
        if (first.length != second.length) {
            throw new IllegalArgumentException(
                    "pairs need arrays of one length, got " + first.length + " and " + second.length);
        }
        double[] differences = new double[first.length];
        for (int i = 0; i < first.length; i++) {
            differences[i] = first[i] - second[i];
        }
        return ofDifferences(differences);
    }
}
