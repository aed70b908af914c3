package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalInt;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

final class TimeAxisTest {

    /** Places are sums and products of a few doubles. */
    private static final double ROUNDING_PX = 1e-9;

    @Test
    void putsTicksAtTheUsualFollowUps() {
        assertEquals(List.of(0.0, 3.0, 6.0, 12.0, 24.0), axis(0.1, 24.3).ticks());
        assertEquals(
                List.of(0.0, 3.0, 6.0, 12.0, 24.0, 36.0, 48.0, 60.0),
                axis(0, 61).ticks());
    }

    @Test
    void reachesATickJustBeyondTheLastExam() {
        // By hand: margin 2 % of 23.8 months = 0.48, so the axis ends at 24.28.
        assertEquals(List.of(0.0, 3.0, 6.0, 12.0, 24.0), axis(0, 23.8).ticks());
    }

    @Test
    void beginsBeforeSurgeryWhereAnExamDoes() {
        assertEquals(List.of(-12.0, 0.0, 3.0, 6.0), axis(-13, 6).ticks());
    }

    @Test
    void spansThreeMonthsAtLeast() {
        assertEquals(List.of(0.0, 3.0), axis(0).ticks());
    }

    @Test
    void placesMonthsInProportion() {
        TimeAxis axis = axis(0, 24);
        // By hand: the axis runs over 24 · 1.04 = 24.96 months on 100 to 1100 px; month 0 lies 0.48 months from its
        // left.
        assertEquals(100 + 0.48 / 24.96 * 1000, axis.x(0), ROUNDING_PX);
        assertEquals(600, axis.x(12), ROUNDING_PX);
    }

    private static TimeAxis axis(double... months) {
        List<CourseExam> exams = DoubleStream.of(months)
                .mapToObj(month -> new CourseExam("", month, OptionalInt.empty(), ""))
                .toList();
        return new TimeAxis(exams, 100, 1100);
    }
}
