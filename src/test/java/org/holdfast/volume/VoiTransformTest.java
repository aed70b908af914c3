package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdfast.volume.VoiTransform.Function;
import org.holdfast.volume.VoiTransform.Window;
import org.junit.jupiter.api.Test;

class VoiTransformTest {

    /** A few additions and one division in double precision. */
    private static final double ROUNDING = 1e-14;

    private static double linear(double centre, double width, double value) {
        return new Window("", centre, width, Function.LINEAR).grey(value);
    }

    @Test
    void linearWindowOfFullRange() {
        // Source: DICOM PS3.3, C.11.2.1.2.1, example c = 2048, w = 4096: x ≤ 0 is least, x > 4095 is most, else
        // (x − 2047.5) / 4095 + 0.5
        assertEquals(0, linear(2048, 4096, 0));
        // By hand: (1 − 2047.5) / 4095 + 0.5 = 1 / 4095
        assertEquals(1 / 4095.0, linear(2048, 4096, 1), ROUNDING);
        // By hand: (2048 − 2047.5) / 4095 + 0.5
        assertEquals(0.5 + 0.5 / 4095, linear(2048, 4096, 2048), ROUNDING);
        assertEquals(1, linear(2048, 4096, 4095), ROUNDING);
        assertEquals(1, linear(2048, 4096, 5000));
    }

    @Test
    void linearWindowRoundZero() {
        // Source: DICOM PS3.3, C.11.2.1.2.1, example c = 0, w = 100: x ≤ −50 is least, x > 49 is most, else
        // (x + 0.5) / 99 + 0.5
        assertEquals(0, linear(0, 100, -50));
        assertEquals(0.5 / 99 + 0.5, linear(0, 100, 0), ROUNDING);
        assertEquals(1, linear(0, 100, 49.5));
    }

    @Test
    void linearWindowOfWidthOneIsAStep() {
        // Source: DICOM PS3.3, C.11.2.1.2.1, examples c = 2048, w = 1: x ≤ 2047.5 is least, else most; c = 0: −0.5
        assertEquals(0, linear(2048, 1, 2047));
        assertEquals(0, linear(2048, 1, 2047.5));
        assertEquals(1, linear(2048, 1, 2048));
        assertEquals(0, linear(0, 1, -0.5));
        assertEquals(1, linear(0, 1, 0));
    }

    @Test
    void linearExactHasNoOffsets() {
        Window window = new Window("", 2048, 4096, Function.LINEAR_EXACT);
        // Source: DICOM PS3.3, C.11.2.1.3.2, example c = 2048, w = 4096: x ≤ 0 is least, x > 4096 is most, else
        // (x − 2048) / 4096 + 0.5
        assertEquals(0, window.grey(0));
        assertEquals(0.25, window.grey(1024));
        assertEquals(0.5, window.grey(2048));
        assertEquals(1, window.grey(4096));
        // By hand: a window of normalised values, (0.6 − 0.5) / 0.4 + 0.5
        assertEquals(0.75, new Window("", 0.5, 0.4, Function.LINEAR_EXACT).grey(0.6), ROUNDING);
    }

    @Test
    void sigmoidReachesNeitherEnd() {
        Window window = new Window("", 100, 200, Function.SIGMOID);
        // Source: DICOM PS3.3, C.11.2.1.3.1: 1 / (1 + exp(−4 (x − c) / w))
        assertEquals(0.5, window.grey(100));
        // By hand: exponent −4 · 100 / 200 = −2
        assertEquals(1 / (1 + Math.exp(-2)), window.grey(200), ROUNDING);
        assertEquals(1 / (1 + Math.exp(2)), window.grey(0), ROUNDING);
    }

    @Test
    void refusesWidthsThatCannotBeDrawn() {
        assertThrows(IllegalArgumentException.class, () -> new Window("", 0, 0.9, Function.LINEAR));
        assertThrows(IllegalArgumentException.class, () -> new Window("", 0, 0, Function.LINEAR_EXACT));
        assertThrows(IllegalArgumentException.class, () -> new Window("", 0, -10, Function.SIGMOID));
        assertThrows(IllegalArgumentException.class, () -> new Window("", Double.NaN, 10, Function.LINEAR));
        assertThrows(IllegalArgumentException.class, () -> new Window("", 0, Double.NaN, Function.LINEAR));
    }

    @Test
    void tableClampsAndRounds() {
        LookupTable table = new LookupTable(-2, 8, new char[] {10, 20, 255, 300});
        // By hand: the first entry belongs to −2, the last to 1; beyond them they repeat; −0.5 rounds up to 0.
        assertEquals(10, table.entry(-7));
        assertEquals(20, table.entry(-1));
        assertEquals(255, table.entry(-0.5));
        assertEquals(300, table.entry(9));
        // By hand: 20 of 255; 300 uses more bits than it may.
        assertEquals(20 / 255.0, new VoiTransform.Table("", table).grey(-1), ROUNDING);
        assertEquals(1, new VoiTransform.Table("", table).grey(1));
    }

    @Test
    void dragToTheRightWidensAndDownRaises() {
        Window window = new Window("", 100, 500, Function.SIGMOID);
        // By hand: 25 / 250 of 500 wider; 50 / 250 of 500 higher.
        assertEquals(new Window("own", 200, 550, Function.SIGMOID), window.dragged("own", 25, 50));
        assertEquals(1, window.dragged("own", -400, 0).width());
    }
}
