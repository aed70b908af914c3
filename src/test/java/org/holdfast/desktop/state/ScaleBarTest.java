package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Scale bars of round lengths. */
final class ScaleBarTest {

    private static final double ROUNDING_PX = 1e-9;

    // By hand: the longest of 1, 2, 5, 10, 20, 50 and 100 mm that takes at most 60 px
    @ParameterizedTest
    @CsvSource({
        "0.2, 10, 50, 10 mm",
        "0.17, 10, 58.823529411764706, 10 mm",
        "0.3, 10, 33.333333333333336, 10 mm",
        "0.35, 20, 57.142857142857146, 20 mm",
        "2, 100, 50, 100 mm",
        "0.02, 1, 50, 1 mm"
    })
    void isTheLongestRoundLengthThatFits(double mmPerPx, double mm, double px, String words) {
        ScaleBar bar = ScaleBar.within(mmPerPx, 60);
        assertEquals(mm, bar.lengthMm());
        assertEquals(px, bar.lengthPx(), ROUNDING_PX);
        assertEquals(words.replace(' ', '\u2009'), bar.words());
    }

    @Test
    void isTrueEvenWhereTheShortestIsTooLong() {
        ScaleBar bar = ScaleBar.within(0.001, 60);
        // By hand: 0.1 mm at 0.001 mm a pixel
        assertEquals(100, bar.lengthPx(), ROUNDING_PX);
        assertTrue(bar.words().startsWith("0.1"));
    }
}
