package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class CutPlaneTest {

    @Test
    void originIsTheCentreOfTheFirstPixel() {
        CutPlane plane = new CutPlane(
                new PatientPoint(1, 2, 3), new PatientVector(0.5, 0, 0), new PatientVector(0, 0, -2), 10, 5);

        // By hand: (1 + 4·0.5, 2, 3 − 3·2)
        assertEquals(new PatientPoint(3, 2, -3), plane.pixelToPatient(4, 3));
        // By hand: x × −z = y
        assertEquals(0, plane.normal().minus(TestGrids.Y).norm(), 1e-12);
    }

    @Test
    void centreLiesInTheMiddleOfThePicture() {
        CutPlane odd = CutPlane.centredOn(new PatientPoint(1, 2, 3), TestGrids.X, TestGrids.Y, 0.5, 5, 3);
        CutPlane even = CutPlane.centredOn(new PatientPoint(1, 2, 3), TestGrids.X, TestGrids.Y, 0.5, 4, 2);

        assertEquals(new PatientPoint(1, 2, 3), odd.pixelToPatient(2, 1));
        // By hand: between the pixels 1 and 2, 0 and 1
        assertEquals(new PatientPoint(1, 2, 3), even.pixelToPatient(1.5, 0.5));
    }

    @Test
    void downIsMadeSquareToRight() {
        CutPlane plane =
                CutPlane.centredOn(PatientPoint.ORIGIN, TestGrids.X.times(3), new PatientVector(5, 2, 0), 0.5, 5, 5);

        assertEquals(new PatientVector(0.5, 0, 0), plane.stepRight());
        assertEquals(new PatientVector(0, 0.5, 0), plane.stepDown());
    }

    @Test
    void refusesWhatSpansNoPlane() {
        PatientPoint o = PatientPoint.ORIGIN;
        assertThrows(IllegalArgumentException.class, () -> new CutPlane(o, TestGrids.X, TestGrids.X.times(2), 5, 5));
        assertThrows(
                IllegalArgumentException.class, () -> new CutPlane(o, TestGrids.X, new PatientVector(0, 0, 0), 5, 5));
        assertThrows(IllegalArgumentException.class, () -> new CutPlane(o, TestGrids.X, TestGrids.Y, 0, 5));
        assertThrows(IllegalArgumentException.class, () -> new CutPlane(o, TestGrids.X, TestGrids.Y, 65536, 65536));
        assertThrows(IllegalArgumentException.class, () -> CutPlane.centredOn(o, TestGrids.X, TestGrids.Y, 0, 5, 5));
    }

    @Test
    void pixelsOutsideThePictureAreRefused() {
        Cut cut = new Cut(new CutPlane(PatientPoint.ORIGIN, TestGrids.X, TestGrids.Y, 2, 2), new float[4]);

        assertThrows(IndexOutOfBoundsException.class, () -> cut.hu(2, 0));
        assertThrows(IndexOutOfBoundsException.class, () -> cut.hu(-1, 1));
        assertThrows(IndexOutOfBoundsException.class, () -> cut.hu(0, 2));
    }
}
