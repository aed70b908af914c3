package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.numbers.gamma.Erfc;
import org.junit.jupiter.api.Test;

class NormalTableTest {

    /** What the class promises: step⁴/384 · max of the fourth derivative is 3.6e-10 for the density. */
    private static final double TOLERANCE = 1e-9;

    @Test
    void agreesWithTheComplementaryErrorFunction() {
        for (int n = -9000; n <= 9000; n++) {
            double x = n * 0.000987;
            // Computed: commons-numbers 1.2, 0.5 * Erfc.value(-x / sqrt(2))
            assertEquals(0.5 * Erfc.value(-x / Math.sqrt(2)), NormalTable.cumulative(x), TOLERANCE);
            // Computed: java.lang.Math.exp(-x * x / 2) / sqrt(2 pi)
            assertEquals(Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI), NormalTable.density(x), TOLERANCE);
        }
    }

    @Test
    void endsInZeroAndOneAndPassesOnWhatIsNoNumber() {
        // By hand: beyond ±8 the tail is under 1e-15.
        assertEquals(1, NormalTable.cumulative(8), 0);
        // By hand: the same on the other side.
        assertEquals(0, NormalTable.cumulative(-1e9), 0);
        // By hand: the density is symmetric and vanishes.
        assertEquals(0, NormalTable.density(Double.POSITIVE_INFINITY), 0);
        assertTrue(Double.isNaN(NormalTable.cumulative(Double.NaN)));
        assertTrue(Double.isNaN(NormalTable.density(Double.NaN)));
    }
}
