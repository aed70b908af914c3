package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class OrientationTest {

    // Source: DICOM PS3.3 C.7.6.1.1.1 and C.7.6.2.1.1: x to the left, y to the back, z to the head
    @ParameterizedTest
    @CsvSource({"1,0,0,L", "-2,0,0,R", "0,1,0,P", "0,-1,0,A", "0,0,3,H", "0,0,-1,F"})
    void namesTheAxes(double x, double y, double z, String letters) {
        assertEquals(letters, Orientation.letters(new PatientVector(x, y, z)));
    }

    // By hand: the limit is 20° towards the second axis; 70° is 20° towards it from the other side
    @ParameterizedTest
    @CsvSource({"0,L", "19,L", "21,LA", "44,LA", "45,LA", "46,AL", "69,AL", "71,A", "90,A"})
    void namesTheSecondAxisFromTwentyDegrees(double degrees, String letters) {
        double angle = Math.toRadians(degrees);
        PatientVector direction = new PatientVector(Math.cos(angle), -Math.sin(angle), 0);
        assertEquals(letters, Orientation.letters(direction));
    }

    // By hand: shares 3, 2 and 2.5 of their norm 4.39 all lie above sin 20° = 0.34; the two largest stay
    @Test
    void namesNoMoreThanTwoAxes() {
        assertEquals("RH", Orientation.letters(new PatientVector(-3, 2, 2.5)));
    }

    @Test
    void refusesAVectorWithoutDirection() {
        assertThrows(IllegalArgumentException.class, () -> Orientation.letters(new PatientVector(0, 0, 0)));
    }
}
