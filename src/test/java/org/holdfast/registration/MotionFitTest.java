package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class MotionFitTest {

    private static final double ROUNDING = 1e-9;

    private static final PatientVector SHIFT = new PatientVector(0.3, -0.2, 0.1);
    private static final PatientVector TURN = new PatientVector(0.002, 0.001, -0.003);

    /** Rows of surface points under a small motion, with an offset along all normals and noise. */
    private static MotionFit rows(SurfacePoints points, int groups, double offset, double noise, long seed) {
        Random random = new Random(seed);
        MotionFit fit = new MotionFit(PatientPoint.ORIGIN, 0.008, groups, 10, 0.01);
        for (int n = 0; n < points.size(); n++) {
            PatientPoint p = points.point(n);
            PatientVector d = points.normal(n);
            PatientVector u = SHIFT.plus(TURN.cross(p.minus(PatientPoint.ORIGIN)));
            fit.add(p.x(), p.y(), p.z(), d.x(), d.y(), d.z(), d.dot(u) + offset + noise * random.nextGaussian(), 1, 0);
        }
        return fit;
    }

    @Test
    void findsShiftTurnAndOffset() {
        MotionFit fit = rows(AnalyticSurfaces.construct(2000, 3), 1, 0.15, 0, 1);
        MotionFit.Solution solution = fit.solve();
        double[] x = solution.unknowns();
        // The expectation of a small offset (SD 10 against 0.01) shortens it by 1e-6 / 2000.
        assertEquals(0.15, solution.offsets()[0], ROUNDING);
        assertEquals(0, new PatientVector(x[0], x[1], x[2]).minus(SHIFT).norm(), 10 * ROUNDING);
        assertEquals(0, new PatientVector(x[3], x[4], x[5]).minus(TURN).norm(), ROUNDING);
        assertTrue(fit.uncertainty(solution).isFullyDetermined());
    }

    @Test
    void listsTheThreeMotionsOfAPlane() {
        SurfacePoints box = AnalyticSurfaces.box(PatientPoint.ORIGIN, 20, 15, 5, 6000, 3);
        MotionFit fit = rows(box.inside(p -> p.z() == 5), 0, 0, 0.01, 1);
        PoseUncertainty known = fit.uncertainty(fit.solve());
        // By hand: a plane slides along two axes and turns about its normal.
        assertEquals(3, known.freeMotions().size());
        assertTrue(
                known.placeErrorMm(PatientPoint.ORIGIN, PatientVector.CRANIAL).isPresent());
        assertTrue(known.placeErrorMm(PatientPoint.ORIGIN, PatientVector.LEFT).isEmpty());
        assertTrue(known.rotationErrorDeg(PatientVector.CRANIAL).isEmpty());
        assertTrue(known.rotationErrorDeg(PatientVector.LEFT).isPresent());
    }

    @Test
    void statesErrorsThatHold() {
        SurfacePoints points = AnalyticSurfaces.construct(2000, 3);
        int within = 0;
        int runs = 200;
        for (int run = 0; run < runs; run++) {
            MotionFit fit = rows(points, 1, 0, 0.05, run);
            MotionFit.Solution solution = fit.solve();
            double se = fit.uncertainty(solution)
                    .placeErrorMm(PatientPoint.ORIGIN, PatientVector.LEFT)
                    .orElseThrow();
            within += Math.abs(solution.unknowns()[0] - SHIFT.x()) < 1.96 * se ? 1 : 0;
        }
        // By hand: 190 of 200 expected, binomial SD 3.1; some 100 blocks make the error itself uncertain by 7 %: ± 11.
        assertEquals(190, within, 11);
    }

    @Test
    void needsTwelveRows() {
        SurfacePoints few = AnalyticSurfaces.box(PatientPoint.ORIGIN, 5, 5, 5, 11, 1);
        assertThrows(IllegalArgumentException.class, () -> rows(few, 1, 0, 0, 1).solve());
    }
}
