package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;

/** Signs and axes of migration, on transforms made by hand. */
class MigrationMeasureTest {

    /** Rounding of a few transforms of coordinates of 300 mm. */
    private static final double ROUNDING = 1e-9;

    private static final PatientPoint MIDDLE = new PatientPoint(100, -50, 300);
    /** The subject lies turned about the long axis by 30°: left and posterior lean, cranial stays. */
    private static final RigidTransform TURN = RigidTransform.rotation(PatientVector.CRANIAL, 30, PatientPoint.ORIGIN);

    private static final PatientVector LEFT = TURN.apply(PatientVector.LEFT);
    private static final PatientVector POSTERIOR = TURN.apply(PatientVector.POSTERIOR);
    private static final PatientVector CRANIAL = PatientVector.CRANIAL;
    private static final double HALF_HEIGHT_MM = 20;

    @Test
    void tellsTranslationAlongTheConstructsAxes() {
        RigidTransform part =
                translation(LEFT.times(1).plus(POSTERIOR.times(-2)).plus(CRANIAL.times(3)));
        Migration.Motion motion = motionOf("body", "upper", part, RigidTransform.IDENTITY);
        // By hand: moved 1 mm left, 2 mm forward, 3 mm up along the axes themselves.
        assertVector(1, -2, 3, motion.translationMm());
        assertVector(0, 0, 0, motion.rotationDeg());
    }

    @Test
    void gradesWhatIsBeyondErrorByPublishedTables() {
        Migration.Motion sunk = motionOf("body", "upper", translation(CRANIAL.times(2.01)), RigidTransform.IDENTITY);
        List<String> words =
                sunk.grades().stream().map(PublishedGrading.Grade::inWords).toList();
        // Source: oblique lumbar cages, BMC Musculoskelet Disord 2022: over 2 to 4 mm is mild
        assertEquals(2, words.size());
        assertTrue(words.get(0).contains("yes (over 2 mm)"), words.toString());
        assertTrue(words.get(1).contains("mild") && words.get(1).contains("adapted"), words.toString());
        Migration.Motion still = motionOf("body", "upper", translation(CRANIAL.times(0.02)), RigidTransform.IDENTITY);
        assertEquals(List.of(), still.grades());
    }

    @Test
    void leavesOutAScrewsSpin() {
        ScrewShape screw = (ScrewShape) construct().component("screw").shape();
        Migration.Motion spun = motionOf(
                "screw", "lower", RigidTransform.rotation(screw.direction(), 3, screw.head()), RigidTransform.IDENTITY);
        // By hand: a turn about its own axis moves nothing of a round shank
        assertVector(0, 0, 0, spun.rotationDeg());
        assertTrue(spun.isWithinError());
    }

    @Test
    void rotationIsRightHandedAndAboutTheMiddle() {
        RigidTransform part = RigidTransform.rotation(LEFT, 4, MIDDLE);
        Migration.Motion motion = motionOf("body", "upper", part, RigidTransform.IDENTITY);
        // By hand: turned by 4° about the left axis through its middle, which stays; front comes down.
        assertVector(4, 0, 0, motion.rotationDeg());
        assertVector(0, 0, 0, motion.translationMm());
        assertEquals(4, motion.sagittalTiltDeg(), ROUNDING);
        PatientPoint front = MIDDLE.along(POSTERIOR, -10);
        assertTrue(part.apply(front).minus(front).dot(CRANIAL) < 0);
    }

    @Test
    void aBoneThatMovesUnderTheBodyIsTheBodyMovingTheOtherWay() {
        RigidTransform bone = translation(CRANIAL.times(2));
        Migration.Motion motion = motionOf("body", "lower", RigidTransform.IDENTITY, bone);
        // By hand: the lower bone came up by 2 mm, so the body went down in it, which is into it.
        assertVector(0, 0, -2, motion.translationMm());
        assertEquals(2, motion.intoBoneMm().value().orElseThrow(), ROUNDING);
    }

    @Test
    void shiftAndTurnOfTheTableIsNoMotion() {
        RigidTransform table = RigidTransform.rotation(new PatientVector(1, 2, -1), 35, new PatientPoint(5, 6, 7))
                .then(translation(new PatientVector(80, -30, 40)));
        Migration.Motion motion = motionOf("body", "upper", table, table);
        // By hand: all moved as one.
        assertVector(0, 0, 0, motion.translationMm());
        assertVector(0, 0, 0, motion.rotationDeg());
        assertTrue(motion.isWithinError());
    }

    @Test
    void motionIsToldInTheReferenceExamsAxesWhateverThePosture() {
        RigidTransform table =
                RigidTransform.rotation(PatientVector.LEFT, 40, MIDDLE).then(translation(new PatientVector(0, 0, 90)));
        RigidTransform own = RigidTransform.rotation(POSTERIOR, -3, MIDDLE).then(translation(CRANIAL.times(-1.5)));
        Migration.Motion motion = motionOf("body", "lower", own.then(table), table);
        // By hand: the body's own motion before the table turned: −3° about posterior, 1.5 mm down.
        assertVector(0, -3, 0, motion.rotationDeg());
        assertVector(0, 0, -1.5, motion.translationMm());
        // By hand: the lower face's centre hangs 20 mm under the middle; turning lifts it by 20 (1 − cos 3°).
        double expected = 1.5 - 20 * (1 - Math.cos(Math.toRadians(3)));
        assertEquals(expected, motion.intoBoneMm().value().orElseThrow(), ROUNDING);
    }

    @Test
    void intoBoneIsPositiveTowardsEitherBone() {
        RigidTransform down = translation(CRANIAL.times(-2));
        // By hand: 2 mm down is 2 mm into the lower bone and 2 mm out of the upper.
        assertEquals(2, intoBone("lower", down), ROUNDING);
        assertEquals(-2, intoBone("upper", down), ROUNDING);
    }

    @Test
    void intoBoneIsThatOfTheFaceNotOfTheMiddle() {
        // The upper face leans: its centre lies 20 mm above the middle and 6 mm to the left.
        RigidTransform turned = RigidTransform.rotation(POSTERIOR, 2, MIDDLE);
        // By hand: right-handed about posterior carries cranial to left and left to caudal: height of the centre
        // becomes
        // 20 cos 2° − 6 sin 2°, before 20.
        double expected = 20 * Math.cos(Math.toRadians(2)) - 6 * Math.sin(Math.toRadians(2)) - 20;
        assertEquals(expected, intoBone("upper", turned), ROUNDING);
    }

    @Test
    void screwAngleIsThatOfTheSagittalProjection() {
        RigidTransform part = RigidTransform.rotation(LEFT, 2.5, MIDDLE);
        Migration.Motion motion = motionOf("screw", "lower", part, RigidTransform.IDENTITY);
        // By hand: a rotation about the left axis turns every sagittal projection by its angle.
        assertEquals(2.5, motion.screwAngleChangeDeg().value().orElseThrow(), ROUNDING);
        Migration.Motion across =
                motionOf("screw", "lower", RigidTransform.rotation(CRANIAL, 5, MIDDLE), RigidTransform.IDENTITY);
        // By hand: the screw lies level (no cranial part), so a turn about cranial leaves its projection's angle.
        assertEquals(0, across.screwAngleChangeDeg().value().orElseThrow(), ROUNDING);
    }

    @Test
    void screwAngleTipsDownWhereTheBoneTiltsUp() {
        RigidTransform bone = RigidTransform.rotation(LEFT, -1.9, MIDDLE);
        Migration.Motion motion = motionOf("screw", "lower", RigidTransform.IDENTITY, bone);
        // By hand: against a bone turned by −1.9° the screw has turned by +1.9°: the rule's boundary.
        assertEquals(1.9, motion.screwAngleChangeDeg().value().orElseThrow(), ROUNDING);
    }

    @Test
    void onlyWhatAPartHasIsStated() {
        Migration.Motion body = motionOf("body", "upper", RigidTransform.IDENTITY, RigidTransform.IDENTITY);
        assertTrue(body.screwAngleChangeDeg().value().isEmpty());
        Migration.Motion screw = motionOf("screw", "lower", RigidTransform.IDENTITY, RigidTransform.IDENTITY);
        assertTrue(screw.intoBoneMm().value().isEmpty());
        Migration.Motion crossing = motionOf("crossing", "lower", RigidTransform.IDENTITY, RigidTransform.IDENTITY);
        assertTrue(crossing.screwAngleChangeDeg().value().isEmpty());
        assertEquals(List.of(), measure(MotionSettings.withDefaults()).of("rod", poses(Map.of(), Map.of())));
    }

    @Test
    void bodyWithTwoBonesGivesTwoResults() {
        ExamPoses poses = poses(
                Map.of("body", RigidTransform.IDENTITY),
                Map.of("upper", RigidTransform.IDENTITY, "lower", translation(CRANIAL.times(1))));
        List<Migration> results = measure(MotionSettings.withDefaults()).of("body", poses);
        assertEquals(
                List.of("upper", "lower"), results.stream().map(Migration::bone).toList());
        // By hand: still against the upper, 1 mm into the lower.
        assertEquals(
                0,
                results.get(0)
                        .motion()
                        .value()
                        .orElseThrow()
                        .intoBoneMm()
                        .value()
                        .orElseThrow(),
                ROUNDING);
        assertEquals(
                1,
                results.get(1)
                        .motion()
                        .value()
                        .orElseThrow()
                        .intoBoneMm()
                        .value()
                        .orElseThrow(),
                ROUNDING);
    }

    @Test
    void aMissingPoseGivesNoMotionButAReason() {
        Answer<Migration.Motion> noPart = measure(MotionSettings.withDefaults())
                .of("body", poses(Map.of(), Map.of("upper", RigidTransform.IDENTITY)))
                .get(0)
                .motion();
        assertTrue(noPart.why().contains("part"), noPart.why());
        Answer<Migration.Motion> noBone = measure(MotionSettings.withDefaults())
                .of("body", poses(Map.of("body", RigidTransform.IDENTITY), Map.of()))
                .get(0)
                .motion();
        assertTrue(noBone.why().contains("bone"), noBone.why());
    }

    @Test
    void exactlyTheRepeatabilityIsWithinError() {
        MotionSettings given = new MotionSettings(3, 25, 5, 5, 0.25, 0.5);
        assertTrue(motionOf(given, translation(CRANIAL.times(0.25))).isWithinError());
        assertFalse(motionOf(given, translation(CRANIAL.times(0.26))).isWithinError());
        assertTrue(motionOf(given, RigidTransform.rotation(LEFT, 0.49, MIDDLE)).isWithinError());
        assertFalse(motionOf(given, RigidTransform.rotation(LEFT, 0.51, MIDDLE)).isWithinError());
        assertTrue(
                motionOf(given, RigidTransform.IDENTITY).repeatabilitySource().startsWith("given"));
    }

    @Test
    void simulatedRepeatabilityIsLabelledALowerBound() {
        Migration.Motion motion = motionOf(MotionSettings.withDefaults(), RigidTransform.IDENTITY);
        assertEquals("simulated repeats, a lower bound", motion.repeatabilitySource());
        assertTrue(motion.repeatabilityMm() > 0 && motion.repeatabilityDeg() > 0);
        MotionSettings half = new MotionSettings(3, 25, 5, 5, 0.25, 0);
        assertEquals(
                "translation given for this scanner, rotation simulated repeats, a lower bound",
                motionOf(half, RigidTransform.IDENTITY).repeatabilitySource());
    }

    private static Migration.Motion motionOf(MotionSettings settings, RigidTransform part) {
        return measure(settings)
                .of("body", poses(Map.of("body", part), Map.of("upper", RigidTransform.IDENTITY)))
                .get(0)
                .motion()
                .value()
                .orElseThrow();
    }

    private static double intoBone(String bone, RigidTransform part) {
        return motionOf("body", bone, part, RigidTransform.IDENTITY)
                .intoBoneMm()
                .value()
                .orElseThrow();
    }

    private static Migration.Motion motionOf(
            String component, String bone, RigidTransform part, RigidTransform bonePose) {
        return measure(MotionSettings.withDefaults())
                .of(component, poses(Map.of(component, part), Map.of(bone, bonePose)))
                .stream()
                .filter(m -> m.bone().equals(bone))
                .findFirst()
                .orElseThrow()
                .motion()
                .value()
                .orElseThrow();
    }

    private static ExamPoses poses(Map<String, RigidTransform> parts, Map<String, RigidTransform> bones) {
        Map<String, Answer<ExamPoses.PartPose>> partPoses = new HashMap<>();
        parts.forEach((id, pose) -> partPoses.put(id, Answer.of(new ExamPoses.PartPose(found(pose), 0, 0))));
        Map<String, Answer<FoundPose>> bonePoses = new HashMap<>();
        bones.forEach((id, pose) -> bonePoses.put(id, Answer.of(found(pose))));
        return new ExamPoses(found(RigidTransform.IDENTITY), List.of(), partPoses, bonePoses);
    }

    private static FoundPose found(RigidTransform pose) {
        return FoundPose.given(pose, ExamScan.PoseKind.REGISTERED, "made by hand");
    }

    private static MigrationMeasure measure(MotionSettings settings) {
        return new MigrationMeasure(construct(), settings);
    }

    private static RigidTransform translation(PatientVector v) {
        return RigidTransform.translation(v);
    }

    private static void assertVector(double x, double y, double z, PatientVector actual) {
        assertEquals(x, actual.x(), ROUNDING);
        assertEquals(y, actual.y(), ROUNDING);
        assertEquals(z, actual.z(), ROUNDING);
    }

    private static Construct construct() {
        LocalDate day = LocalDate.of(2030, 1, 1);
        List<Component> parts = List.of(
                component(
                        "body",
                        1,
                        ComponentKind.VERTEBRAL_BODY,
                        new BoxShape(MIDDLE, List.of(LEFT, POSTERIOR, CRANIAL), List.of(15.0, 13.0, HALF_HEIGHT_MM))),
                component(
                        "screw",
                        2,
                        ComponentKind.PEDICLE_SCREW,
                        new ScrewShape(
                                MIDDLE.along(POSTERIOR, 40),
                                MIDDLE.along(POSTERIOR, 1).along(LEFT, -10),
                                6,
                                "lower",
                                5,
                                30)),
                component(
                        "crossing",
                        3,
                        ComponentKind.PEDICLE_SCREW,
                        new ScrewShape(MIDDLE, MIDDLE.along(LEFT, 40), 6, "lower", 5, 30)),
                component(
                        "rod",
                        4,
                        ComponentKind.MAIN_ROD,
                        new RodShape(List.of(MIDDLE, MIDDLE.along(CRANIAL, 60)), 5.5)));
        return new Construct(
                "made-by-hand",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(MIDDLE, LEFT, POSTERIOR, CRANIAL),
                List.of(new Bone("upper", "upper"), new Bone("lower", "lower")),
                parts,
                List.of(),
                List.of(
                        face("upper-face", 1, "upper", CRANIAL, 6),
                        face("lower-face", 2, "lower", CRANIAL.times(-1), 0)));
    }

    private static Component component(String id, int number, ComponentKind kind, org.holdfast.construct.Shape shape) {
        return new Component(
                id,
                number,
                id,
                kind,
                Material.TITANIUM_SOLID,
                LocalDate.of(2030, 1, 1),
                Optional.empty(),
                Optional.empty(),
                shape);
    }

    private static BoneInterface face(String id, int number, String bone, PatientVector normal, double toLeftMm) {
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                MIDDLE.along(normal, HALF_HEIGHT_MM).along(LEFT, toLeftMm),
                LEFT,
                POSTERIOR,
                normal,
                8,
                8);
        return new BoneInterface(id, number, id, "body", bone, Filler.NONE, List.of(patch));
    }
}
