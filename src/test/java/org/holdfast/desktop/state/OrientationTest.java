package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Letters at the edges of pictures. */
final class OrientationTest {

    // Source: DICOM PS3.3 C.7.6.1.1.1 for the letters, C.7.6.2.1.1 for x to the left, y to the back, z to the head
    @ParameterizedTest
    @CsvSource({"1, 0, 0, L", "-2, 0, 0, R", "0, 1, 0, P", "0, -0.5, 0, A", "0, 0, 3, H", "0, 0, -1, F"})
    void eachAxisHasItsLetter(double x, double y, double z, String expected) {
        assertEquals(expected, Orientation.letters(new PatientVector(x, y, z)));
    }

    // By hand: from left to anterior; a second letter from 20° to 70°, and the greater of the two first
    @ParameterizedTest
    @CsvSource({"0, L", "19.9, L", "20.1, LA", "44, LA", "46, AL", "69.9, AL", "70.1, A", "90, A"})
    void aLeanOfTwentyDegreesIsTold(double degrees, String expected) {
        double angle = Math.toRadians(degrees);
        assertEquals(expected, Orientation.letters(new PatientVector(Math.cos(angle), -Math.sin(angle), 0)));
    }

    @Test
    void theLeastOfThreeIsNotTold() {
        // By hand: shares of the length 4.39: 0.68, 0.46 and 0.57; the two greatest are R and H
        assertEquals("RH", Orientation.letters(new PatientVector(-3, 2, 2.5)));
    }

    @Test
    void refusesWhatHasNoDirection() {
        assertThrows(IllegalArgumentException.class, () -> Orientation.letters(new PatientVector(0, 0, 0)));
    }
}
