package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HuWindowTest {

    @Test
    void runsHalfItsWidthToEitherSide() {
        HuWindow window = new HuWindow(650, 2700);

        // By hand: 650 − 1350 and 650 + 1350
        assertEquals(-700, window.low());
        assertEquals(2000, window.high());
    }

    @Test
    void isMadeBetweenTwoValues() {
        // By hand: the middle of −160 and 240, and their distance
        assertEquals(new HuWindow(40, 400), HuWindow.between(-160, 240));
    }

    @Test
    void keepsTheNarrowestWidthBetweenEqualValues() {
        // By hand: no width, so the narrowest, around the value
        assertEquals(new HuWindow(30, 1), HuWindow.between(30, 30));
    }

    @ParameterizedTest
    @CsvSource({"NaN, 400", "Infinity, 400", "40, 0.99", "40, -5", "40, NaN", "40, Infinity"})
    void refusesWhatIsNoWindow(double centreHu, double widthHu) {
        assertThrows(IllegalArgumentException.class, () -> new HuWindow(centreHu, widthHu));
    }

    @Test
    void followsADragOverAPicture() {
        HuWindow dragged = new HuWindow(650, 2000).dragged(25, -50);

        // By hand: a tenth wider; a fifth of 2000 down
        assertEquals(new HuWindow(250, 2200), dragged);
    }

    @Test
    void staysAWindowHoweverFarItIsDragged() {
        // By hand: the scale of 16 bits
        assertEquals(65_536, new HuWindow(0, 400).dragged(1e6, 0).widthHu());
        assertEquals(1, new HuWindow(0, 400).dragged(-1e6, 0).widthHu());
        assertEquals(32_767, new HuWindow(0, 400).dragged(0, 1e9).centreHu());
        assertEquals(-32_768, new HuWindow(0, 400).dragged(0, -1e9).centreHu());
    }
}
