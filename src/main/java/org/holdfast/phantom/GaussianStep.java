package org.holdfast.phantom;

import org.apache.commons.numbers.gamma.Erfc;

/** The standard normal distribution function from a table, for loops that need millions of values. */
final class GaussianStep {

    private static final double END = 6;
    private static final int PER_UNIT = 256;
    private static final double[] TABLE = new double[(int) (2 * END * PER_UNIT) + 2];

    static {
        for (int n = 0; n < TABLE.length; n++) {
            double t = (double) n / PER_UNIT - END;
            TABLE[n] = 0.5 * Erfc.value(-t / Math.sqrt(2));
        }
    }

    private GaussianStep() {}

    /**
     * Φ(t), the share of a standard normal distribution below t.
     *
     * <p>Linear interpolation in a table of step 1/256: absolute error under 5e-7 (step² · max|φ′| / 8). 0 below −6 and 1
     * above 6, where the true tail is under 1e-9.
     */
    static double below(double t) {
        if (!(t > -END)) {
            return 0;
        }
        if (t >= END) {
            return 1;
        }
        double at = (t + END) * PER_UNIT;
        int n = (int) at;
        double low = TABLE[n];
        return low + (at - n) * (TABLE[n + 1] - low);
    }
}
