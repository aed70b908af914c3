package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class MarkPlaceTest {

    private static final CutAxes AXIAL = new CutAxes(PatientVector.LEFT, PatientVector.POSTERIOR);
    private static final MarkPlace PLACE =
            new MarkPlace("part", 2, new PatientPoint(5, 6, 100), AXIAL, Optional.empty());

    @Test
    void isShownByThePlaneItselfWhereverItsOriginIs() {
        assertTrue(PLACE.isShownBy(2, new PatientPoint(-40, 90, 100), AXIAL, 0.3));
    }

    @Test
    void isNotShownOnAnotherExam() {
        assertFalse(PLACE.isShownBy(1, new PatientPoint(5, 6, 100), AXIAL, 0.3));
    }

    @Test
    void isShownUpToTheDistanceGiven() {
        assertTrue(PLACE.isShownBy(2, new PatientPoint(5, 6, 100.29), AXIAL, 0.3));
        assertFalse(PLACE.isShownBy(2, new PatientPoint(5, 6, 100.31), AXIAL, 0.3));
    }

    @Test
    void isShownByPlanesThatLeanLessThanOneDegree() {
        assertTrue(PLACE.isShownBy(2, new PatientPoint(5, 6, 100), leaning(0.9), 0.3));
        assertFalse(PLACE.isShownBy(2, new PatientPoint(5, 6, 100), leaning(1.1), 0.3));
    }

    @Test
    void isShownFromTheOtherSide() {
        CutAxes mirrored = new CutAxes(PatientVector.LEFT.times(-1), PatientVector.POSTERIOR);
        assertTrue(PLACE.isShownBy(2, new PatientPoint(5, 6, 100), mirrored, 0.3));
    }

    @Test
    void putsAPointOntoItsPlane() {
        // By hand: the plane is z = 100.
        assertEquals(new PatientPoint(8, 9, 100), PLACE.onto(new PatientPoint(8, 9, 100.25)));
    }

    private static CutAxes leaning(double degrees) {
        double angle = Math.toRadians(degrees);
        return new CutAxes(new PatientVector(Math.cos(angle), 0, Math.sin(angle)), PatientVector.POSTERIOR);
    }
}
