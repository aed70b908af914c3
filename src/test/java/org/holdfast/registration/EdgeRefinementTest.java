package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Single parts of a simulated construct that moved by a known amount. */
class EdgeRefinementTest {

    /** The goal for repeats of a motion: 0.05 mm and 0.1° as 1.96 SD. */
    private static final double GOAL_MM = 0.05;

    private static final double GOAL_DEG = 0.1;
    private static final double LEVEL_HU = 1600;

    private static final RigidTransform SCENE_TO_REFERENCE = RigidTransform.rotation(
                    new PatientVector(1, 2, -1), 4, PatientPoint.ORIGIN)
            .then(RigidTransform.translation(new PatientVector(10, -120, 30)));
    private static final RigidTransform REFERENCE_TO_EXAM = RigidTransform.rotation(
                    PatientVector.LEFT, 8, new PatientPoint(10, -120, 30))
            .then(RigidTransform.translation(new PatientVector(3, 5, -7)));
    /** The upper level's motion in the scene: 2.6 mm and 3°. */
    private static final RigidTransform MOVED = RigidTransform.rotation(
                    PatientVector.LEFT, 3, new PatientPoint(0, 15, 30))
            .then(RigidTransform.translation(new PatientVector(0.5, -1, -2.35)));

    private static HuVolume reference;
    private static HuVolume exam;
    private static SurfacePoints surface;
    private static SurfaceMatch examSurface;

    @BeforeAll
    static void scan() {
        reference = MetalScene.asImplanted().scan(SCENE_TO_REFERENCE, 1);
        exam = MetalScene.asImplanted()
                .withUpperMoved(MOVED)
                .scanned(0.85, new PointSpread(0.45, 0.42), 25, HuScale.EXTENDED_30710)
                .scan(SCENE_TO_REFERENCE.then(REFERENCE_TO_EXAM), 2);
        surface = MetalSurface.of(reference, LEVEL_HU, Progress.NONE);
        examSurface =
                new SurfaceMatch(MetalSurface.of(exam, LEVEL_HU, Progress.NONE), p -> !Double.isNaN(exam.sample(p)));
    }

    private static SurfacePoints part(Predicate<PatientPoint> inScene) {
        RigidTransform toScene = SCENE_TO_REFERENCE.inverse();
        return surface.inside(p -> inScene.test(toScene.apply(p))).thinned(3000);
    }

    private static RigidTransform movedPose() {
        return SCENE_TO_REFERENCE.inverse().then(MOVED).then(SCENE_TO_REFERENCE).then(REFERENCE_TO_EXAM);
    }

    private static PoseResult.Found found(PoseResult result) {
        return result.found().orElseThrow(() -> new AssertionError(((PoseResult.Refused) result).reason()));
    }

    @Test
    void findsABodyThatStayed() {
        SurfacePoints body = part(p -> Math.abs(p.z()) < 21 && p.y() < 14 && Math.abs(p.x()) < 15);
        PoseResult.Found found = found(EdgeRefinement.near(reference, exam)
                .refine(
                        body,
                        REFERENCE_TO_EXAM.then(RigidTransform.translation(new PatientVector(0.6, -0.5, 0.7))),
                        EdgeSettings.withDefaults(),
                        Progress.NONE));
        PatientPoint middle = SCENE_TO_REFERENCE.apply(PatientPoint.ORIGIN);
        PatientPoint truth = REFERENCE_TO_EXAM.apply(middle);
        assertEquals(0, found.referenceToExam().apply(middle).distanceTo(truth), GOAL_MM);
        assertEquals(
                0, REFERENCE_TO_EXAM.inverse().then(found.referenceToExam()).rotationAngleDeg(), GOAL_DEG);
        assertTrue(found.uncertainty().isFullyDetermined());
        double error =
                found.uncertainty().placeErrorMm(truth, PatientVector.CRANIAL).orElseThrow();
        assertTrue(error > 0.0005 && error < 0.02, "standard error " + error);
    }

    @Test
    void followsAScrewWithItsHeadByTwoAndAHalfMillimetres() {
        SurfacePoints screw = part(p -> p.x() > 6 && p.z() > 24 && p.z() < 37 && !isAtRod(p));
        PoseResult.Found found = found(EdgeRefinement.from(reference, exam, examSurface)
                .refine(screw, REFERENCE_TO_EXAM, EdgeSettings.withDefaults(), Progress.NONE));
        PatientPoint middle = SCENE_TO_REFERENCE.apply(new PatientPoint(14, 16, 31));
        assertEquals(
                0, found.referenceToExam().apply(middle).distanceTo(movedPose().apply(middle)), GOAL_MM);
    }

    private static boolean isAtRod(PatientPoint p) {
        return p.y() > 34;
    }

    @Test
    void keepsTheStartOfWhatAShankDoesNotTell() {
        SurfacePoints shank = part(p -> p.x() > 9 && p.z() > 24 && p.z() < 37 && p.y() > 0 && p.y() < 30);
        PoseResult.Found found = found(EdgeRefinement.from(reference, exam, examSurface)
                .refine(shank, REFERENCE_TO_EXAM, EdgeSettings.withDefaults(), Progress.NONE));
        PatientVector axis = REFERENCE_TO_EXAM.apply(SCENE_TO_REFERENCE.apply(new PatientVector(12, 40, -2)));
        PoseUncertainty known = found.uncertainty();
        // By hand: a shank without its tip and head slides along its axis and spins about it.
        assertEquals(2, known.freeMotions().size());
        assertTrue(known.rotationErrorDeg(axis).isEmpty());
        assertTrue(known.placeErrorMm(known.centre(), axis).isEmpty());
        assertTrue(known.placeErrorMm(known.centre(), axis.anyPerpendicular()).isPresent());
    }

    @Test
    void refusesAMotionBeyondItsLimits() {
        SurfacePoints screw = part(p -> p.x() > 6 && p.z() > 24 && p.z() < 37 && !isAtRod(p));
        PoseResult result = EdgeRefinement.near(reference, exam)
                .refine(screw, movedPose(), EdgeSettings.withDefaults().withLimits(0.001, 0.001), Progress.NONE);
        assertTrue(((PoseResult.Refused) result).reason().contains("a motion of more than"));
        PoseResult away = EdgeRefinement.near(reference, exam)
                .refine(
                        screw,
                        movedPose().then(RigidTransform.translation(new PatientVector(0, 300, 0))),
                        EdgeSettings.withDefaults(),
                        Progress.NONE);
        assertTrue(((PoseResult.Refused) away).reason().contains("too few edges"));
    }
}
