package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class PatientPointTest {

    @Test
    void distanceOfTwoThreeSix() {
        // By hand: (3, 5, 9) − (1, 2, 3) = (2, 3, 6), length 7
        assertEquals(7, new PatientPoint(3, 5, 9).distanceTo(new PatientPoint(1, 2, 3)), 1e-12);
        assertEquals(new PatientVector(2, 3, 6), new PatientPoint(3, 5, 9).minus(new PatientPoint(1, 2, 3)));
    }

    @Test
    void walksAlongADirection() {
        assertEquals(new PatientPoint(1, 2, 0.5), new PatientPoint(1, 2, 3).along(PatientVector.CRANIAL, -2.5));
        assertEquals(new PatientPoint(2, 4, 6), new PatientPoint(1, 2, 3).plus(new PatientVector(1, 2, 3)));
    }

    @Test
    void liesAtAFractionOfTheWay() {
        PatientPoint a = new PatientPoint(0, 10, -4);
        PatientPoint b = new PatientPoint(4, 10, 4);

        assertEquals(new PatientPoint(1, 10, -2), a.towards(b, 0.25));
        assertEquals(new PatientPoint(8, 10, 12), a.towards(b, 2));
    }
}
