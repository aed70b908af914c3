package org.holdfast.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class WilsonIntervalTest {

    /** The expected limits are printed with four decimals. */
    private static final double PRINTED = 5e-5;

    @Test
    void givesTheLimitsOfTwoCounts() {
        WilsonInterval few = new WilsonInterval(38, 402);
        // By hand: 38/402 = 0.094527; z²/n = 0.0095558; centre 0.098365, half width 0.028765.
        assertEquals(0.0945, few.share(), PRINTED);
        assertEquals(0.0696, few.lower(), PRINTED);
        assertEquals(0.1271, few.upper(), PRINTED);
    }

    @Test
    void hasAWidthWithoutHits() {
        WilsonInterval none = new WilsonInterval(0, 10);
        assertEquals(0, none.lower(), 1e-15);
        // By hand: z² / (n + z²) = 3.84146 / 13.84146.
        assertEquals(0.2775, none.upper(), PRINTED);
        WilsonInterval all = new WilsonInterval(10, 10);
        // By hand: 1 − 0.2775.
        assertEquals(0.7225, all.lower(), PRINTED);
        assertEquals(1, all.upper(), 1e-15);
    }

    @Test
    void refusesCountsThatAreNone() {
        assertThrows(IllegalArgumentException.class, () -> new WilsonInterval(0, 0));
        assertThrows(IllegalArgumentException.class, () -> new WilsonInterval(3, 2));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> new WilsonInterval(-1, 2))
                .getMessage()
                .contains("-1"));
    }
}
