package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;

class SurfacePointsTest {

    private static final double ROUNDING = 1e-9;

    @Test
    void thinsToAboutTheCountAndKeepsTheArea() {
        SurfacePoints many = AnalyticSurfaces.construct(40_000, 3);
        for (int count : new int[] {200, 1000, 5000}) {
            SurfacePoints few = many.thinned(count);
            assertEquals(many.totalAreaMm2(), few.totalAreaMm2(), ROUNDING * many.totalAreaMm2());
            assertTrue(Math.abs(few.size() - count) < 0.25 * count, few.size() + " for " + count);
        }
    }

    @Test
    void keepsBothFacesOfAThinPlate() {
        SurfacePoints plate = AnalyticSurfaces.box(PatientPoint.ORIGIN, 20, 20, 0.2, 5000, 1);
        SurfacePoints few = plate.thinned(100);
        double up = few.inside(p -> p.z() > 0.19).totalAreaMm2();
        double down = few.inside(p -> p.z() < -0.19).totalAreaMm2();
        // By hand: each face of 40 × 40 mm; points are drawn by chance, 2500 ± 50 a face, SD 2 %, allowed 4 SD.
        assertEquals(1600, up, 130);
        assertEquals(1600, down, 130);
    }

    @Test
    void movesPointsAndTurnsNormals() {
        SurfacePoints one =
                SurfacePoints.of(List.of(new PatientPoint(1, 0, 0)), List.of(new PatientVector(3, 0, 0)), 2);
        RigidTransform quarter = RigidTransform.rotation(PatientVector.CRANIAL, 90, PatientPoint.ORIGIN)
                .then(RigidTransform.translation(new PatientVector(0, 0, 5)));
        SurfacePoints moved = one.moved(quarter);
        // By hand: a quarter turn about z takes x to y.
        assertEquals(0, moved.point(0).distanceTo(new PatientPoint(0, 1, 5)), ROUNDING);
        assertEquals(0, moved.normal(0).minus(PatientVector.POSTERIOR).norm(), ROUNDING);
        assertEquals(2, moved.areaMm2(0));
    }

    @Test
    void refusesNormalsThatDoNotMatch() {
        assertThrows(
                IllegalArgumentException.class, () -> SurfacePoints.of(List.of(PatientPoint.ORIGIN), List.of(), 1));
        assertThrows(IllegalArgumentException.class, () -> SurfacePoints.of(List.of(), List.of(), 0));
    }
}
