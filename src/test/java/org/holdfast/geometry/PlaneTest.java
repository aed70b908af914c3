package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class PlaneTest {

    @Test
    void distanceIsSignedByTheNormal() {
        Plane plane = new Plane(new PatientPoint(0, 0, 10), new PatientVector(0, 3, 4));

        // By hand: the unit normal is (0, 0.6, 0.8); (5, 5, 20) − (0, 0, 10) = (5, 5, 10) → 3 + 8
        assertEquals(11, plane.signedDistanceMm(new PatientPoint(5, 5, 20)), 1e-12);
        assertEquals(-8, plane.signedDistanceMm(new PatientPoint(7, 0, 0)), 1e-12);
        assertEquals(1, plane.normal().norm(), 1e-12);
    }

    @Test
    void refusesANormalWithoutDirection() {
        assertThrows(IllegalArgumentException.class, () -> new Plane(PatientPoint.ORIGIN, new PatientVector(0, 0, 0)));
    }
}
