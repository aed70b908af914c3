package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class LabelRowsTest {

    private static final double ROUNDING = 1e-9;

    @Test
    void leavesLabelsThatDoNotMeet() {
        assertArrayEquals(new double[] {40, 10, 70}, LabelRows.apart(new double[] {40, 10, 70}, 14, 0, 100), ROUNDING);
    }

    @Test
    void pushesTheLowerOfTwoDown() {
        // By hand: 50 stays, 52 goes to 50 + 14.
        assertArrayEquals(new double[] {64, 50}, LabelRows.apart(new double[] {52, 50}, 14, 0, 100), ROUNDING);
    }

    @Test
    void pushesUpFromTheLowerEdge() {
        // By hand: both wish 95 of at most 100; the lower ends at 100, the other 14 above.
        assertArrayEquals(new double[] {86, 100}, LabelRows.apart(new double[] {95, 95}, 14, 0, 100), ROUNDING);
    }

    @Test
    void leavesNoLabelsAlone() {
        assertArrayEquals(new double[0], LabelRows.apart(new double[0], 14, 0, 100));
    }

    @Property(tries = 200)
    void keepsOrderDistanceAndLimitsWhereThereIsRoom(
            @ForAll @Size(7) double @DoubleRange(min = -20, max = 120) [] wished) {
        double[] placed = LabelRows.apart(wished, 14, 0, 100);
        int[] order = IntStream.range(0, wished.length)
                .boxed()
                .sorted((a, b) -> Double.compare(wished[a], wished[b]))
                .mapToInt(n -> n)
                .toArray();
        double before = -14;
        for (int n : order) {
            assertTrue(placed[n] >= before + 14 - ROUNDING, () -> Arrays.toString(placed));
            assertTrue(placed[n] >= 0 && placed[n] <= 100, () -> Arrays.toString(placed));
            before = placed[n];
        }
    }
}
