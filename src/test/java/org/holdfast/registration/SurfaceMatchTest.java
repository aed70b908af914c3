package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.SingularValueDecomposition;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;

/** Surfaces in closed form, moved by a known transform. */
class SurfaceMatchTest {

    private static final RigidTransform KNOWN = RigidTransform.rotation(
                    new PatientVector(1, -2, 0.5), 5, new PatientPoint(4, 5, 6))
            .then(RigidTransform.translation(new PatientVector(1.2, -0.7, 2.1)));

    /** The same points on both sides: only rounding and the last step's size are left. */
    private static final double EXACT_MM = 1e-5;

    private static double largestErrorMm(RigidTransform pose, RigidTransform truth, SurfacePoints points) {
        double largest = 0;
        for (int n = 0; n < points.size(); n++) {
            largest = Math.max(largest, pose.apply(points.point(n)).distanceTo(truth.apply(points.point(n))));
        }
        return largest;
    }

    private static SurfaceMatch to(SurfacePoints exam) {
        return new SurfaceMatch(exam, p -> true);
    }

    /** The rigid transform of least squares between pairs (Kabsch, Acta Cryst 1976;A32:922), by singular values. */
    private static RigidTransform closedForm(SurfacePoints from, SurfacePoints to) {
        PatientVector a = from.centroid().minus(PatientPoint.ORIGIN);
        PatientVector b = to.centroid().minus(PatientPoint.ORIGIN);
        RealMatrix sum = new Array2DRowRealMatrix(3, 3);
        for (int n = 0; n < from.size(); n++) {
            PatientVector p = from.point(n).minus(PatientPoint.ORIGIN).minus(a);
            PatientVector q = to.point(n).minus(PatientPoint.ORIGIN).minus(b);
            double[][] outer = {
                {p.x() * q.x(), p.x() * q.y(), p.x() * q.z()},
                {p.y() * q.x(), p.y() * q.y(), p.y() * q.z()},
                {p.z() * q.x(), p.z() * q.y(), p.z() * q.z()}
            };
            sum = sum.add(new Array2DRowRealMatrix(outer));
        }
        SingularValueDecomposition svd = new SingularValueDecomposition(sum);
        double[][] r = svd.getV().multiply(svd.getUT()).getData();
        RigidTransform turn = RigidTransform.ofMatrix(new double[] {
            r[0][0], r[0][1], r[0][2], 0, r[1][0], r[1][1], r[1][2], 0, r[2][0], r[2][1], r[2][2], 0, 0, 0, 0, 1
        });
        return turn.then(RigidTransform.translation(b.minus(turn.apply(a))));
    }

    @Test
    void recoversAKnownTransformAsTheClosedFormDoes() {
        SurfacePoints reference = AnalyticSurfaces.construct(4000, 1);
        SurfacePoints exam = reference.moved(KNOWN);
        PoseResult.Found found = to(exam).match(reference, RigidTransform.IDENTITY, MatchSettings.withDefaults())
                .found()
                .orElseThrow();
        assertTrue(largestErrorMm(found.referenceToExam(), KNOWN, reference) < EXACT_MM);
        assertTrue(largestErrorMm(found.referenceToExam(), closedForm(reference, exam), reference) < EXACT_MM);
        assertTrue(found.uncertainty().isFullyDetermined());
        // Phantom: every point lies in the image and on the surface.
        assertEquals(1, found.quality().overlap(), 1e-9);
        assertEquals(1, found.quality().inlierShare(), 1e-9);
    }

    @Test
    void recoversFromOtherPointsOfTheSameSurface() {
        SurfacePoints reference = AnalyticSurfaces.construct(3000, 1);
        SurfacePoints exam = AnalyticSurfaces.construct(20_000, 77).moved(KNOWN);
        RigidTransform pose = to(exam).match(reference, RigidTransform.IDENTITY, MatchSettings.withDefaults())
                .found()
                .orElseThrow()
                .referenceToExam();
        // Planes are met exactly; on the tube the tangent of a point 0.5 mm away errs by 0.25 / (2 · 3) = 0.04 mm
        // outwards.
        assertTrue(largestErrorMm(pose, KNOWN, reference) < 0.04, "" + largestErrorMm(pose, KNOWN, reference));
    }

    @Test
    void doesNotFollowAPartThatMoved() {
        SurfacePoints body = AnalyticSurfaces.box(PatientPoint.ORIGIN, 15, 12, 20, 3000, 4);
        SurfacePoints part = AnalyticSurfaces.box(new PatientPoint(22, 30, 12), 4, 6, 9, 800, 5);
        RigidTransform away = KNOWN.then(RigidTransform.translation(new PatientVector(2, 3, -2)));
        PoseResult.Found found = to(body.moved(KNOWN).and(part.moved(away)))
                .match(body.and(part), RigidTransform.IDENTITY, MatchSettings.withDefaults())
                .found()
                .orElseThrow();
        assertTrue(largestErrorMm(found.referenceToExam(), KNOWN, body) < 1e-3);
        double share = body.totalAreaMm2() / (body.totalAreaMm2() + part.totalAreaMm2());
        // Phantom: what moved does not fit, but where its old and new place cross.
        assertEquals(share, found.quality().inlierShare(), 0.05);
    }

    @Test
    void refusesACylinderThatCanTurnAndSlide() {
        SurfacePoints tube = AnalyticSurfaces.tube(PatientPoint.ORIGIN, 2.75, 40, 3000, 1);
        PoseResult result = to(AnalyticSurfaces.tube(PatientPoint.ORIGIN, 2.75, 60, 6000, 2))
                .match(tube, RigidTransform.IDENTITY, MatchSettings.withDefaults());
        PoseResult.Refused refused = (PoseResult.Refused) result;
        assertTrue(refused.reason().contains("turn or slide in 2 way(s)"), refused.reason());
        PoseUncertainty known = refused.nearest().orElseThrow().uncertainty();
        assertTrue(known.rotationErrorDeg(PatientVector.CRANIAL).isEmpty());
        assertTrue(known.placeErrorMm(known.centre(), PatientVector.CRANIAL).isEmpty());
        assertTrue(known.placeErrorMm(known.centre(), PatientVector.LEFT).isPresent());
    }

    @Test
    void refusesOtherMetal() {
        SurfacePoints other = AnalyticSurfaces.box(new PatientPoint(0, 4, 3), 9, 19, 12, 4000, 9);
        PoseResult result = to(other)
                .match(AnalyticSurfaces.construct(3000, 1), RigidTransform.IDENTITY, MatchSettings.withDefaults());
        PoseResult.Refused refused = (PoseResult.Refused) result;
        assertTrue(refused.reason().contains("another patient or re-operated?"), refused.reason());
    }

    @Test
    void refusesWhatLiesOutsideTheImage() {
        SurfacePoints surface = AnalyticSurfaces.construct(3000, 1);
        SurfaceMatch narrow = new SurfaceMatch(surface, p -> p.z() > 25);
        PoseResult result = narrow.match(surface, RigidTransform.IDENTITY, MatchSettings.withDefaults());
        PoseResult.Refused refused = (PoseResult.Refused) result;
        assertTrue(refused.reason().contains("inside this exam's image"), refused.reason());
    }

    @Test
    void refusesTooLittle() {
        SurfacePoints one = SurfacePoints.of(List.of(PatientPoint.ORIGIN), List.of(PatientVector.LEFT), 1);
        PoseResult result = to(one).match(one, RigidTransform.IDENTITY, MatchSettings.withDefaults());
        assertTrue(((PoseResult.Refused) result).reason().contains("too little metal surface"));
    }
}
