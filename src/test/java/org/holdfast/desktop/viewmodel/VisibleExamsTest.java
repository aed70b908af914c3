package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

final class VisibleExamsTest {

    @Test
    void showsAllThatFit() {
        assertEquals(List.of(0, 1, 2, 3, 4), VisibleExams.of(5, 4, 5));
        assertEquals(List.of(0, 1, 2), VisibleExams.of(3, 1, 8));
    }

    @Test
    void keepsTheFirstAndTheChosenWithItsNeighbours() {
        assertEquals(List.of(0, 4, 5, 6), VisibleExams.of(9, 5, 4));
        assertEquals(List.of(0, 5, 6, 7, 8), VisibleExams.of(9, 8, 5));
        assertEquals(List.of(0, 1, 2), VisibleExams.of(9, 0, 3));
    }

    @Test
    void withRoomForOneShowsTheChosen() {
        assertEquals(List.of(7), VisibleExams.of(9, 7, 1));
    }
}
