package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class ShapeTest {

    private static final double ROUNDING = 1e-12;

    private static PatientPoint at(double x, double y, double z) {
        return new PatientPoint(x, y, z);
    }

    @Test
    void cylinderDistanceFromSideEndRimAndInside() {
        Shape cylinder = new CylinderShape(at(0, 0, 0), at(0, 0, 10), 2);

        // By hand: side 5 − 2; end 13 − 10; rim √(3² + 4²); inside nearest of side 2 − 1 and end 5, and of end 0.5
        assertEquals(3, cylinder.signedDistanceMm(at(5, 0, 5)), ROUNDING);
        assertEquals(3, cylinder.signedDistanceMm(at(0, 1, 13)), ROUNDING);
        assertEquals(5, cylinder.signedDistanceMm(at(0, 5, 14)), ROUNDING);
        assertEquals(-1, cylinder.signedDistanceMm(at(1, 0, 5)), ROUNDING);
        assertEquals(-0.5, cylinder.signedDistanceMm(at(0, 0, 0.5)), ROUNDING);
        assertEquals(0, cylinder.signedDistanceMm(at(0, 2, 3)), ROUNDING);
    }

    @Test
    void boxDistanceFromFaceEdgeCornerAndInside() {
        Shape box = new BoxShape(
                at(1, 1, 1),
                List.of(PatientVector.POSTERIOR, PatientVector.LEFT, PatientVector.CRANIAL),
                List.of(2.0, 1.0, 3.0));

        // By hand: half extents 1 along x, 2 along y, 3 along z about (1, 1, 1)
        assertEquals(4, box.signedDistanceMm(at(6, 1, 1)), ROUNDING);
        assertEquals(5, box.signedDistanceMm(at(5, 7, 1)), ROUNDING);
        assertEquals(Math.sqrt(3), box.signedDistanceMm(at(3, 4, 5)), ROUNDING);
        assertEquals(-1, box.signedDistanceMm(at(1, 1, 1)), ROUNDING);
        assertEquals(-0.25, box.signedDistanceMm(at(1, 2.75, 1)), ROUNDING);
    }

    @Test
    void rodIsRoundAtBendsAndFlatAtItsEnds() {
        RodShape rod = new RodShape(List.of(at(0, 0, 0), at(0, 0, 10), at(10, 0, 10)), 4);

        // By hand: 1 mm beyond the flat end; outside of the bend at 45°, √18 from the bend less the radius 2
        assertEquals(1, rod.signedDistanceMm(at(0, 0, -1)), ROUNDING);
        assertEquals(1, rod.signedDistanceMm(at(0, 1.9, -1)), ROUNDING);
        assertEquals(Math.sqrt(18) - 2, rod.signedDistanceMm(at(-3, 0, 13)), ROUNDING);
        assertEquals(-2, rod.signedDistanceMm(at(0, 0, 5)), ROUNDING);
        assertEquals(-2, rod.signedDistanceMm(at(0, 0, 10)), ROUNDING);
        assertEquals(20, rod.lengthMm(), ROUNDING);
    }

    @Test
    void screwIsACylinderFromHeadToTip() {
        ScrewShape screw = new ScrewShape(at(0, 0, 0), at(0, -40, 0), 6, "l1", 4, 36);

        assertEquals(-3, screw.signedDistanceMm(at(0, -20, 0)), ROUNDING);
        assertEquals(2, screw.signedDistanceMm(at(0, -42, 0)), ROUNDING);
        assertEquals(40, screw.lengthMm(), ROUNDING);
    }

    @Test
    void screwPatchCoversTheStretchInBone() {
        ScrewShape screw = new ScrewShape(at(0, 0, 0), at(0, -40, 0), 6, "l1", 4, 36);

        assertEquals(new CylinderPatch(at(0, -4, 0), at(0, -36, 0), 3), screw.inBonePatch());
    }

    @Test
    void screwInBoneToItsVeryTipIsAccepted() {
        PatientPoint tip = at(0.1, -40.3, 7.77);
        double length = at(0, 0, 0).distanceTo(tip);

        ScrewShape screw = new ScrewShape(at(0, 0, 0), tip, 6, "l1", 0, Math.ceil(length * 1e4) / 1e4);

        assertEquals(length, screw.lengthMm(), ROUNDING);
    }

    @Test
    void distanceNeverExceedsTheWayToAnySurfacePoint() {
        List<Shape> shapes = List.of(
                new CylinderShape(at(0, 0, 0), at(3, 4, 10), 2),
                new RodShape(List.of(at(0, 0, 0), at(0, 3, 10), at(8, 0, 14)), 5),
                new BoxShape(
                        at(1, 2, 3),
                        List.of(
                                new PatientVector(0.6, 0.8, 0),
                                new PatientVector(-0.8, 0.6, 0),
                                new PatientVector(0, 0, 1)),
                        List.of(4.0, 2.0, 5.0)));
        java.util.Random random = new java.util.Random(7);
        for (Shape shape : shapes) {
            for (int n = 0; n < 2000; n++) {
                PatientPoint a = at(random.nextGaussian() * 8, random.nextGaussian() * 8, random.nextGaussian() * 8);
                PatientPoint b = at(random.nextGaussian() * 8, random.nextGaussian() * 8, random.nextGaussian() * 8);
                // A bound on the distance changes at most as fast as one walks (Lipschitz with constant 1).
                double change = Math.abs(shape.signedDistanceMm(a) - shape.signedDistanceMm(b));
                assertTrue(change <= a.distanceTo(b) + 1e-9, () -> shape + " from " + a + " to " + b);
            }
        }
    }

    @Test
    void meshWithoutItsFileHasNoDistance() {
        MeshShape mesh = new MeshShape("body.stl", "0".repeat(64));

        assertFalse(mesh.hasDistance());
        assertThrows(UnsupportedOperationException.class, () -> mesh.signedDistanceMm(PatientPoint.ORIGIN));
    }
}
