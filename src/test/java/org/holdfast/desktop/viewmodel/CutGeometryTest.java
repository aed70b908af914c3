package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.construct.CutAxes;
import org.holdfast.construct.PartFrame;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;

final class CutGeometryTest {

    /** Rounding of sums of numbers near 100 mm. */
    private static final double ROUNDING = 1e-9;

    private static final PatientVector LEFT = new PatientVector(1, 0, 0);
    private static final PatientVector POSTERIOR = new PatientVector(0, 1, 0);
    private static final PatientVector CAUDAL = new PatientVector(0, 0, -1);

    private static final PartFrame FRAME = new PartFrame(
            new PatientPoint(10, 20, 30),
            new CutAxes(LEFT, CAUDAL),
            new CutAxes(POSTERIOR, CAUDAL),
            new CutAxes(LEFT, POSTERIOR),
            18,
            13);

    private static final CutLook LOOK = CutLook.fitted(FRAME.middle(), new HuWindow(600, 2000));

    @Test
    void fitsThePartWithItsMargin() {
        CutGeometry picture = CutGeometry.of(FRAME, CutRow.ALONG, LOOK, RigidTransform.IDENTITY, 200, 100);
        // By hand: 2 (18 + 7) mm over 200 pixels is 0.25, 2 (13 + 7) mm over 100 pixels is 0.4, the larger counts.
        assertEquals(0.4, picture.mmPerPixel(), ROUNDING);
        assertPoint(FRAME.middle(), picture.placeAt(100, 50));
    }

    @Test
    void putsTheSamePlaceOfThePartIntoTheSamePixelOfEveryExam() {
        RigidTransform pose = RigidTransform.rotation(new PatientVector(1, 2, 3), 17, new PatientPoint(5, 5, 5))
                .then(RigidTransform.translation(new PatientVector(4, -7, 11)));
        CutGeometry here = CutGeometry.of(FRAME, CutRow.ACROSS, LOOK, RigidTransform.IDENTITY, 231, 175);
        CutGeometry there = CutGeometry.of(FRAME, CutRow.ACROSS, LOOK, pose, 231, 175);
        for (int[] pixel : new int[][] {{0, 0}, {230, 0}, {17, 99}, {115, 87}}) {
            PatientPoint place = here.plane().pixelToPatient(pixel[0], pixel[1]);
            assertPoint(pose.apply(place), there.plane().pixelToPatient(pixel[0], pixel[1]));
        }
    }

    @Test
    void stepsMoveThePlaneAndLeaveThePictureInPlace() {
        PatientVector normal = FRAME.along().normal();
        CutLook deeper = LOOK.at(FRAME.middle().along(normal, 3));
        CutGeometry picture = CutGeometry.of(FRAME, CutRow.ALONG, deeper, RigidTransform.IDENTITY, 200, 200);
        assertPoint(FRAME.middle().along(normal, 3), picture.centre());
        assertEquals(100, picture.crossingX(), ROUNDING);
        assertEquals(100, picture.crossingY(), ROUNDING);
        CutGeometry other = CutGeometry.of(FRAME, CutRow.ACROSS, deeper, RigidTransform.IDENTITY, 200, 200);
        // By hand: the along cut's normal is left × caudal = posterior, which is the across cut's right.
        assertEquals(100 + 3 / other.mmPerPixel(), other.crossingX(), ROUNDING);
        assertPoint(FRAME.middle(), other.centre());
    }

    @Test
    void pixelsOfThePlaneLieWherePicturePlacesAre() {
        CutGeometry picture = CutGeometry.of(FRAME, CutRow.ALONG, LOOK, RigidTransform.IDENTITY, 201, 151);
        // By hand: the middle of pixel (7, 9) is at 7.5, 9.5 from the picture's edges.
        assertPoint(picture.placeAt(7.5, 9.5), picture.plane().pixelToPatient(7, 9));
    }

    @Test
    void zoomKeepsThePlaceUnderThePointer() {
        CutGeometry before = CutGeometry.of(FRAME, CutRow.ALONG, LOOK, RigidTransform.IDENTITY, 200, 160);
        CutLook nearer = before.zoomedAt(LOOK, 2, 40, 120);
        CutGeometry after = CutGeometry.of(FRAME, CutRow.ALONG, nearer, RigidTransform.IDENTITY, 200, 160);
        assertEquals(before.mmPerPixel() / 2, after.mmPerPixel(), ROUNDING);
        assertPoint(before.placeAt(40, 120), after.placeAt(40, 120));
    }

    @Test
    void zoomStopsAtItsLimitsWithoutMoving() {
        CutGeometry before = CutGeometry.of(FRAME, CutRow.ALONG, LOOK, RigidTransform.IDENTITY, 200, 160);
        CutLook nearest = before.zoomedAt(LOOK, 1e6, 40, 120);
        assertEquals(CutLook.MAX_ZOOM, nearest.zoom(), ROUNDING);
        CutGeometry after = CutGeometry.of(FRAME, CutRow.ALONG, nearest, RigidTransform.IDENTITY, 200, 160);
        assertPoint(before.placeAt(40, 120), after.placeAt(40, 120));
    }

    private static void assertPoint(PatientPoint expected, PatientPoint got) {
        assertTrue(expected.minus(got).norm() < ROUNDING, () -> "expected " + expected + ", got " + got);
    }
}
