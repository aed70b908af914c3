package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.holdfast.construct.PlanePatch.Outline;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class PatchTest {

    /** Closed forms hold to rounding of a sum over at most 10^4 terms. */
    private static final double ROUNDING = 1e-9;

    private static final PatientVector X = PatientVector.LEFT;
    private static final PatientVector Y = PatientVector.POSTERIOR;
    private static final PatientVector Z = PatientVector.CRANIAL;

    private static double sum(List<PatchSample> samples, ToDoubleFunction<PatchSample> value) {
        return samples.stream().mapToDouble(value).sum();
    }

    private static PlanePatch plane(Outline outline, double halfU, double halfV) {
        return new PlanePatch(outline, new PatientPoint(3, 4, 5), X, Y, Z, halfU, halfV);
    }

    @Test
    void rectangleOfTwoByOneInHalves() {
        List<PatchSample> samples = plane(Outline.RECTANGLE, 1, 0.5).samples(0.5);

        // By hand: 4 × 2 cells of 0.5 mm × 0.5 mm; the first middle lies at (−0.75, −0.25) from the centre.
        assertEquals(8, samples.size());
        assertEquals(new PatchSample(new PatientPoint(2.25, 3.75, 5), Z, 0.25, -0.75, -0.25), samples.get(0));
        assertEquals(new PatchSample(new PatientPoint(3.75, 4.25, 5), Z, 0.25, 0.75, 0.25), samples.get(7));
    }

    @Test
    void rectangleAreasAddUp() {
        List<PatchSample> samples = plane(Outline.RECTANGLE, 7.3, 4.1).samples(0.5);

        // By hand: 4 · 7.3 · 4.1 = 119.72 mm²
        assertEquals(119.72, sum(samples, PatchSample::areaMm2), ROUNDING);
    }

    @Test
    void ellipseAreasAddUp() {
        PlanePatch patch = plane(Outline.ELLIPSE, 13, 11);

        // By hand: π · 13 · 11 = 449.2477 mm² (printed to 4 decimals)
        assertEquals(449.2477, patch.areaMm2(), 5e-5);
        assertEquals(patch.areaMm2(), sum(patch.samples(0.5), PatchSample::areaMm2), ROUNDING);
    }

    @Test
    void ellipseMomentsMatchTheClosedForm() {
        PlanePatch patch = plane(Outline.ELLIPSE, 13, 7);
        List<PatchSample> samples = patch.samples(0.25);

        // Phantom: second moments of an ellipse are area·a²/4 and area·b²/4, first moments 0. A cell's own moment,
        // area·spacing²/12, is what sampling by middles leaves out: 0.005 of 42 mm².
        assertEquals(13.0 * 13 / 4, sum(samples, s -> s.areaMm2() * s.uMm() * s.uMm()) / patch.areaMm2(), 0.02);
        assertEquals(7.0 * 7 / 4, sum(samples, s -> s.areaMm2() * s.vMm() * s.vMm()) / patch.areaMm2(), 0.02);
        assertEquals(0, sum(samples, PatchSample::uMm) / samples.size(), ROUNDING);
        assertEquals(0, sum(samples, PatchSample::vMm) / samples.size(), 0.005);
    }

    @Test
    void ellipseSamplesLieInside() {
        for (PatchSample s : plane(Outline.ELLIPSE, 15, 2).samples(0.5)) {
            assertTrue(s.uMm() * s.uMm() / 225 + s.vMm() * s.vMm() / 4 < 1, s.toString());
        }
    }

    @Test
    void planeNormalMayPointEitherWay() {
        PlanePatch down = new PlanePatch(Outline.RECTANGLE, PatientPoint.ORIGIN, X, Y, Z.times(-1), 1, 1);

        PatchSample first = down.samples(1).get(0);

        assertEquals(Z.times(-1).z(), first.normal().z());
        assertEquals(new PatientPoint(-0.5, -0.5, 0), first.point());
    }

    @Test
    void planeWithDirectionsWithinToleranceStaysFlatAndUnit() {
        PatientVector tilted = new PatientVector(1, 0, 0.0009);
        PlanePatch patch = new PlanePatch(Outline.RECTANGLE, PatientPoint.ORIGIN, tilted, Y, Z, 10, 10);

        for (PatchSample s : patch.samples(1)) {
            assertEquals(0, s.point().z(), 1e-12);
            assertEquals(Math.hypot(s.uMm(), s.vMm()), s.point().distanceTo(PatientPoint.ORIGIN), 1e-9);
        }
    }

    @Test
    void cylinderAreasAddUpAndNormalsPointAway() {
        CylinderPatch patch = new CylinderPatch(new PatientPoint(1, 2, 3), new PatientPoint(1, 2, 33), 3.25);
        List<PatchSample> samples = patch.samples(0.5);

        // By hand: 2π · 3.25 · 30 = 612.6106 mm²; 60 rings of round(20.42 / 0.5) = 41 cells
        assertEquals(612.6106, sum(samples, PatchSample::areaMm2), 5e-5);
        assertEquals(60 * 41, samples.size());
        for (PatchSample s : samples) {
            PatientPoint onAxis = new PatientPoint(1, 2, 3 + s.uMm());
            assertEquals(3.25, s.point().distanceTo(onAxis), 1e-12);
            assertEquals(1, s.normal().dot(s.point().minus(onAxis).unit()), 1e-12);
        }
    }

    @Test
    void cylinderMapIsArcLengthRightHanded() {
        CylinderPatch patch = new CylinderPatch(PatientPoint.ORIGIN, new PatientPoint(0, 0, 10), 2);
        PatientVector zero = patch.zeroDirection();
        List<PatchSample> samples = patch.samples(0.5);
        // By hand: 4π / 0.5 = 25.13 → 25 cells; the first middle at half a cell: v = 4π/50, angle 2π/50 = 7.2°
        assertEquals(0.25, samples.get(0).uMm(), 1e-12);
        assertEquals(4 * Math.PI / 50, samples.get(0).vMm(), 1e-12);
        assertEquals(7.2, zero.angleDegTo(samples.get(0).normal()), 1e-9);
        assertTrue(zero.cross(samples.get(0).normal()).dot(Z) > 0);
        assertEquals(0.75, samples.get(25).uMm(), 1e-12);
    }

    @Test
    void capAreasAddUp() {
        SpherePatch patch = new SpherePatch(new PatientPoint(1, 2, 3), 13, new PatientVector(0, -0.6, 0.8), 40);
        // By hand: 2π · 169 · (1 − cos 40°) = 2π · 169 · 0.2339556 = 248.4277 mm²
        assertEquals(248.4277, patch.areaMm2(), 5e-5);
        assertEquals(patch.areaMm2(), sum(patch.samples(0.5), PatchSample::areaMm2), ROUNDING);
    }

    @Test
    void wholeSphereCentresAtItsCentre() {
        SpherePatch patch = new SpherePatch(new PatientPoint(1, 2, 3), 10, Z, 180);
        List<PatchSample> samples = patch.samples(0.5);

        // Phantom: 4π·100; the mean of all points is the centre; mean of z² about the centre is radius²/3.
        assertEquals(400 * Math.PI, sum(samples, PatchSample::areaMm2), ROUNDING);
        assertEquals(1, sum(samples, s -> s.point().x()) / samples.size(), 1e-9);
        assertEquals(3, sum(samples, s -> s.point().z()) / samples.size(), 0.01);
        double zz = sum(samples, s -> (s.point().z() - 3) * (s.point().z() - 3)) / samples.size();
        assertEquals(100.0 / 3, zz, 0.05);
    }

    @Test
    void capMapKeepsAreas() {
        SpherePatch patch = new SpherePatch(PatientPoint.ORIGIN, 10, Z, 90);
        for (PatchSample s : patch.samples(1)) {
            double height = 10 - s.point().z();
            // Source: Archimedes – a cap of height h on radius r has the area 2πrh; an equal-area map shows it as a
            // disc
            // of the same area.
            double ring = Math.PI * (s.uMm() * s.uMm() + s.vMm() * s.vMm());
            assertEquals(2 * Math.PI * 10 * height, ring, 1e-9);
            PatientVector flat = new PatientVector(s.point().x(), s.point().y(), 0);
            PatientVector shown = patch.zeroDirection()
                    .times(s.uMm())
                    .plus(Z.cross(patch.zeroDirection()).times(s.vMm()));
            assertEquals(0, flat.angleDegTo(shown), 1e-5);
        }
    }

    @Test
    void aTinyPatchHasAtLeastOneSample() {
        assertEquals(1, plane(Outline.RECTANGLE, 0.01, 0.01).samples(0.5).size());
        assertEquals(1, plane(Outline.ELLIPSE, 0.01, 0.01).samples(0.5).size());
        List<PatchSample> cap = new SpherePatch(PatientPoint.ORIGIN, 10, Z, 0.1).samples(0.5);
        assertEquals(1, cap.size());
        assertEquals(new PatientPoint(0, 0, 10), cap.get(0).point());
        assertEquals(
                3,
                new CylinderPatch(PatientPoint.ORIGIN, new PatientPoint(0, 0, 0.1), 0.01)
                        .samples(0.5)
                        .size());
    }

    @Test
    void refusesASpacingThatIsNoneOrFillsTheMemory() {
        PlanePatch patch = plane(Outline.ELLIPSE, 10, 10);

        assertThrows(IllegalArgumentException.class, () -> patch.samples(0));
        assertThrows(IllegalArgumentException.class, () -> patch.samples(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> patch.samples(1e-6));
        assertThrows(IllegalArgumentException.class, () -> plane(Outline.RECTANGLE, 10, 10)
                .samples(1e-4));
    }
}
