package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.CutPlane;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FlatPictureTest {

    /** Rounding of sums and products of places up to some hundred mm. */
    private static final double ROUNDING = 1e-9;

    /** Pixels of 0.25 mm, to the left and to caudal. */
    private static final CutPlane PLANE = new CutPlane(
            new PatientPoint(10, 20, 300), new PatientVector(0.25, 0, 0), new PatientVector(0, 0, -0.25), 300, 200);

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.25, 1.5, 2})
    void findsAPlaceWhereItPutIt(double scale) {
        FlatPicture picture = new FlatPicture(PLANE, scale);
        PatientPoint place = picture.place(37.25, 81.5);
        assertEquals(37.25, picture.x(place), ROUNDING);
        assertEquals(81.5, picture.y(place), ROUNDING);
    }

    @Test
    void theFirstPixelsMiddleIsHalfAPixelIn() {
        PatientPoint first = new PatientPoint(10, 20, 300);
        assertEquals(0.5, new FlatPicture(PLANE, 1).x(first), ROUNDING);
        // By hand: half a device pixel, 1.5 of them to a logical one: 0.5 / 1.5
        assertEquals(1.0 / 3, new FlatPicture(PLANE, 1.5).x(first), ROUNDING);
        assertEquals(1.0 / 3, new FlatPicture(PLANE, 1.5).y(first), ROUNDING);
    }

    @Test
    void countsLogicalPixelsOfAScaledScreen() {
        // By hand: 30 mm are 120 device pixels of 0.25 mm, with the first half 120.5, over 1.5
        assertEquals(120.5 / 1.5, new FlatPicture(PLANE, 1.5).x(new PatientPoint(40, 20, 300)), ROUNDING);
        // By hand: 15 mm further down are 60 device pixels
        assertEquals(60.5 / 1.5, new FlatPicture(PLANE, 1.5).y(new PatientPoint(40, 20, 285)), ROUNDING);
    }

    @Test
    void aPlaceBesideThePlaneLiesWhereItIsSeenFromTheFront() {
        FlatPicture picture = new FlatPicture(PLANE, 1);
        assertEquals(picture.x(new PatientPoint(40, 20, 285)), picture.x(new PatientPoint(40, 26, 285)), ROUNDING);
        assertEquals(picture.y(new PatientPoint(40, 20, 285)), picture.y(new PatientPoint(40, 26, 285)), ROUNDING);
    }
}
