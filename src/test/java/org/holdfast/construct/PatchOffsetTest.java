package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

/** Height over a patch and distance outside its outline, against closed forms. */
class PatchOffsetTest {

    /** Rounding of a few operations on numbers of some 100 mm. */
    private static final double ROUNDING = 1e-12;

    /** Axes turned by 3-4-5 about z, so that no component is trivially 0; the normal points caudally: −(u × v). */
    private static final PatientVector U = new PatientVector(0.6, 0.8, 0);

    private static final PatientVector V = new PatientVector(-0.8, 0.6, 0);
    private static final PatientVector NORMAL = new PatientVector(0, 0, -1);
    private static final PatientPoint CENTRE = new PatientPoint(10, -20, 30);

    private static PlanePatch plane(PlanePatch.Outline outline) {
        return new PlanePatch(outline, CENTRE, U, V, NORMAL, 5, 3);
    }

    private static PatientPoint at(double u, double v, double height) {
        return CENTRE.along(U, u).along(V, v).along(NORMAL, height);
    }

    private static void assertOffset(double heightMm, double outsideMm, Patch patch, PatientPoint p) {
        PatchOffset offset = PatchOffset.of(patch, p);
        assertEquals(heightMm, offset.heightMm(), ROUNDING);
        assertEquals(outsideMm, offset.outsideMm(), ROUNDING);
    }

    @Test
    void overARectangle() {
        PlanePatch patch = plane(PlanePatch.Outline.RECTANGLE);
        assertOffset(0, -3, patch, CENTRE);
        // By hand: half-widths 5 and 3; the nearer rim is 3 − 2 = 1 mm away.
        assertOffset(4, -1, patch, at(2, 2, 4));
        // By hand: 7 − 5 = 2 mm beyond the rim along u, −2 mm behind the face.
        assertOffset(-2, 2, patch, at(-7, 1, -2));
        assertOffset(1, 0, patch, at(5, 3, 1));
        // By hand: beyond a corner the larger of 1 and 4 counts.
        assertOffset(0, 4, patch, at(6, -7, 0));
    }

    @Test
    void overAnEllipse() {
        PlanePatch patch = plane(PlanePatch.Outline.ELLIPSE);
        assertOffset(1, -2, patch, at(3, 0, 1));
        assertOffset(0, 1, patch, at(0, -4, 0));
        // By hand: (3, 2.4) lies on the ellipse, (3/5)² + (2.4/3)² = 1; twice as far it is its own length outside,
        // √14.76.
        assertOffset(0, 0, patch, at(3, 2.4, 0));
        assertOffset(0, Math.sqrt(14.76), patch, at(6, 4.8, 0));
        assertOffset(2, -3, patch, at(0, 0, 2));
    }

    @Test
    void overACylinder() {
        CylinderPatch patch = new CylinderPatch(CENTRE, CENTRE.along(U, 20), 3);
        // By hand: 5 mm off the axis is 2 mm over the surface; 8 mm along the axis is 8 mm from the nearer end.
        assertOffset(2, -8, patch, at(8, 4, 3));
        assertOffset(-3, -5, patch, at(15, 0, 0));
        assertOffset(0, 2, patch, at(-2, 3, 0));
        assertOffset(1, 4, patch, at(24, 0, 4));
    }

    @Test
    void overACapOfASphere() {
        SpherePatch patch = new SpherePatch(CENTRE, 10, U, 60);
        assertOffset(0, -Math.PI / 3 * 10, patch, at(10, 0, 0));
        // By hand: 90° from the pole is 30° outside the rim, 10 · π/6 mm along the surface; 12 mm out is 2 mm over it.
        assertOffset(2, 10 * Math.PI / 6, patch, at(0, 12, 0));
        assertOffset(-4, 10 * Math.PI * 2 / 3, patch, at(-6, 0, 0));
        // The centre has no direction: it counts as opposite the pole.
        assertOffset(-10, 10 * Math.PI * 2 / 3, patch, CENTRE);
    }

    @Test
    void everySampleLiesOnItsPatch() {
        for (Patch patch : new Patch[] {
            plane(PlanePatch.Outline.RECTANGLE),
            plane(PlanePatch.Outline.ELLIPSE),
            new CylinderPatch(CENTRE, CENTRE.along(U, 20), 3),
            new SpherePatch(CENTRE, 10, U, 60)
        }) {
            for (PatchSample sample : patch.samples(0.5)) {
                PatchOffset offset = PatchOffset.of(patch, sample.point().along(sample.normal(), 1.5));
                assertEquals(1.5, offset.heightMm(), 1e-9);
                assertTrue(offset.outsideMm() <= 1e-9, () -> patch + " at " + sample.point());
            }
        }
    }
}
