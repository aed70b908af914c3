package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class MonthAxisTest {

    private static final double ROUNDING = 1e-9;

    @Test
    void placesMonthsInProportion() {
        // By hand: 24 months over 480 pixels from 100: 20 pixels a month.
        MonthAxis axis = MonthAxis.of(List.of(0.0, 3.0, 24.0), 100, 580);
        assertEquals(100, axis.x(0), ROUNDING);
        assertEquals(160, axis.x(3), ROUNDING);
        assertEquals(580, axis.x(24), ROUNDING);
    }

    @Test
    void takesTheFinestStepThatLeavesRoomForItsWords() {
        // By hand: at 20 pixels a month 2 months are 40 pixels, too near; 3 months are 60.
        assertEquals(
                List.of(0, 3, 6, 9, 12, 15, 18, 21, 24),
                MonthAxis.of(List.of(0.0, 24.0), 100, 580).ticks());
        // By hand: at 10 pixels a month 3 months are 30 pixels, 6 are 60.
        assertEquals(
                List.of(0, 6, 12, 18, 24),
                MonthAxis.of(List.of(0.0, 24.0), 0, 240).ticks());
    }

    @Test
    void takesWholeYearsForTenYears() {
        // By hand: 120 months over 600 pixels: 5 a month, so 12 months are 60 pixels.
        List<Integer> ticks = MonthAxis.of(List.of(0.2, 120.1), 0, 600).ticks();
        assertEquals(List.of(0, 12, 24, 36, 48, 60, 72, 84, 96, 108, 120), ticks);
    }

    @Test
    void beginsBeforeSurgeryWhereAnExamDoes() {
        MonthAxis axis = MonthAxis.of(List.of(-0.4, 3.0), 0, 400);
        assertEquals(0, axis.x(-1), ROUNDING);
        assertEquals(List.of(-1, 0, 1, 2, 3), axis.ticks());
    }

    @Test
    void givesASingleExamAMonth() {
        MonthAxis axis = MonthAxis.of(List.of(0.1), 0, 400);
        assertEquals(40, axis.x(0.1), ROUNDING);
    }

    @Test
    void keepsTicksOnTheAxis() {
        MonthAxis axis = MonthAxis.of(List.of(0.0, 11.9), 0, 700);
        for (int month : axis.ticks()) {
            assertTrue(axis.x(month) <= axis.right(), "month " + month + " lies right of the axis");
        }
    }
}
