package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.app.Caution;
import org.junit.jupiter.api.Test;

final class LetteringTest {

    @Test
    void keepsLinesWithinTheWidthAndLosesNoWord() {
        List<String> lines = Lettering.lines(Caution.TEXT, 11, 300);
        assertTrue(lines.stream().allMatch(line -> Lettering.widthPx(line, 11) <= 300));
        assertEquals(Caution.TEXT, String.join(" ", lines));
    }

    @Test
    void givesALongWordALineOfItsOwn() {
        assertEquals(
                List.of("a", "pneumonoultramicroscopic", "b"), Lettering.lines("a pneumonoultramicroscopic b", 11, 50));
    }

    @Test
    void movesWordsDownOnlyWhereTheyWouldMeet() {
        // By hand: words 40 wide at 0, 30, 60, 100. 30 meets 0 (20 > 10): row 1. 60 starts at 40, free in row 0. 100
        // too.
        assertArrayEquals(
                new int[] {0, 1, 0, 0}, Lettering.rows(new double[] {0, 30, 60, 100}, new double[] {40, 40, 40, 40}));
    }

    @Test
    void stacksWordsAtOnePlace() {
        assertArrayEquals(new int[] {0, 1, 2}, Lettering.rows(new double[] {5, 5, 5}, new double[] {10, 10, 10}));
    }
}
