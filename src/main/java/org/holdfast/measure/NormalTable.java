package org.holdfast.measure;

import org.apache.commons.numbers.gamma.Erfc;

/**
 * The standard normal distribution function Φ and its density φ from one table, for fits that need millions of values.
 *
 * <p>Cubic Hermite interpolation at a step of 1/64: absolute error under 1e-9 for both (step⁴/384 · max of the fourth
 * derivative, 2.3 for φ). Beyond ±8 the values are 0 and 1, where the true tail is under 1e-15. NaN gives NaN. Immutable.
 */
final class NormalTable {

    private static final double END = 8;
    private static final int PER_UNIT = 64;
    private static final double STEP = 1.0 / PER_UNIT;
    private static final int SIZE = (int) (2 * END * PER_UNIT) + 1;
    /** Φ and φ side by side, so that one place in memory serves both. */
    private static final double[] VALUES = new double[2 * SIZE];

    static {
        for (int n = 0; n < SIZE; n++) {
            double x = n * STEP - END;
            VALUES[2 * n] = 0.5 * Erfc.value(-x / Math.sqrt(2));
            VALUES[2 * n + 1] = Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
        }
    }

    private NormalTable() {}

    /** Φ(x) = ∫ φ from −∞ to x. */
    static double cumulative(double x) {
        if (x <= -END) {
            return 0;
        }
        if (x >= END) {
            return 1;
        }
        double place = (x + END) * PER_UNIT;
        int n = (int) place;
        double u = place - n;
        double v = 1 - u;
        int at = 2 * n;
        return v * v * ((1 + 2 * u) * VALUES[at] + u * STEP * VALUES[at + 1])
                + u * u * ((1 + 2 * v) * VALUES[at + 2] - v * STEP * VALUES[at + 3]);
    }

    /** φ(x) = exp(−x²/2) / √(2π). */
    static double density(double x) {
        if (x <= -END || x >= END) {
            return 0;
        }
        double place = (x + END) * PER_UNIT;
        int n = (int) place;
        double u = place - n;
        double v = 1 - u;
        double low = n * STEP - END;
        int at = 2 * n;
        double inner = VALUES[at + 1];
        double outer = VALUES[at + 3];
        return v * v * ((1 + 2 * u) - u * STEP * low) * inner + u * u * ((1 + 2 * v) + v * STEP * (low + STEP)) * outer;
    }
}
