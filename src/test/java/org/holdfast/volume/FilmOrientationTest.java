package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.volume.FilmOrientation.View;
import org.junit.jupiter.api.Test;

class FilmOrientationTest {

    private static View view(String right, String position) {
        return new FilmOrientation(right, right.isEmpty() ? "" : "F", "", position).view();
    }

    @Test
    void lettersOfTheOtherEdgesAreOpposites() {
        FilmOrientation lateral = new FilmOrientation("AF", "FP", "", "");
        assertEquals("PH", lateral.left());
        assertEquals("HA", lateral.up());
        assertEquals("", FilmOrientation.unknown().up());
    }

    @Test
    void directionsAreLettersOfThePatient() {
        assertTrue(FilmOrientation.isDirection("L"));
        assertTrue(FilmOrientation.isDirection("RAF"));
        assertFalse(FilmOrientation.isDirection("RL"));
        assertFalse(FilmOrientation.isDirection("AA"));
        assertFalse(FilmOrientation.isDirection(""));
        assertFalse(FilmOrientation.isDirection("CD"));
        assertThrows(IllegalArgumentException.class, () -> new FilmOrientation("RL", "F", "", ""));
        assertThrows(IllegalArgumentException.class, () -> new FilmOrientation("L", "F", "U", ""));
    }

    @Test
    void viewIsThePositionsElseTheRows() {
        assertEquals(View.FRONT, view("", "AP"));
        assertEquals(View.FRONT, view("A", "pa"));
        assertEquals(View.SIDE, view("", "LL"));
        assertEquals(View.SIDE, view("", "left lateral"));
        assertEquals(View.OBLIQUE, view("", "RAO"));
        assertEquals(View.OBLIQUE, view("", "LLO"));
        assertEquals(View.FRONT, view("L", ""));
        assertEquals(View.SIDE, view("A", "XYZ"));
        assertEquals(View.UNKNOWN, view("", ""));
    }
}
