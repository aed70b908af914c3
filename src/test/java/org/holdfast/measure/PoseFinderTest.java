package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.holdfast.construct.Bone;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.SpineScan;
import org.holdfast.phantom.SpineScene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A simulated subject whose upper vertebra shifted by 3 mm and 5° and whose body sank by 2 mm. */
class PoseFinderTest {

    /** The goal for repeats, 1.96 SD, doubled: a single scene, two ends of a part, a coarse grid. */
    private static final double NEAR_MM = 0.1;

    /** The goal for the bias of a porous body that moved by 2 mm. */
    private static final double SUNK_MM = 0.1;

    private static final RigidTransform FIRST = RigidTransform.rotation(
                    new PatientVector(1, 2, -1), 4, PatientPoint.ORIGIN)
            .then(RigidTransform.translation(new PatientVector(6, -118, 32)));
    private static final RigidTransform LATER = RigidTransform.rotation(
                    new PatientVector(-1, 1, 1), 9, PatientPoint.ORIGIN)
            .then(RigidTransform.translation(new PatientVector(-14, -101, -21)));
    private static final RigidTransform SHIFTED = RigidTransform.rotation(
                    PatientVector.LEFT, 5, new PatientPoint(0, 10, 36))
            .then(RigidTransform.translation(new PatientVector(1, 2, 2)));
    private static final RigidTransform SUNK = RigidTransform.translation(new PatientVector(0, 0, -2));
    private static final SpineScene IMPLANTED = SpineScene.asImplanted(170);

    private static Construct construct;
    private static PoseFinder finder;
    private static HuVolume later;
    private static Answer<ExamPoses> found;

    @BeforeAll
    static void scan() {
        construct = SpineScene.construct(FIRST);
        HuVolume reference = scan(FIRST, 1, IMPLANTED);
        finder = PoseFinder.of(construct, reference, MeasurementSettings.withDefaults(), Progress.NONE);
        later = scan(LATER, 2, IMPLANTED.moved(SHIFTED, RigidTransform.IDENTITY, SUNK));
        found = finder.find(later, Optional.empty(), Progress.NONE);
    }

    private static HuVolume scan(RigidTransform pose, long seed, SpineScene scene) {
        return new SpineScan(pose, 0.6, 0.8, 12, new PointSpread(0.4, 0.35), 20, HuScale.EXTENDED_30710, seed)
                .of(scene, Progress.NONE);
    }

    private static RigidTransform truth(RigidTransform motion) {
        return FIRST.inverse().then(motion).then(LATER);
    }

    @Test
    void everyPartLandsWhereItWent() {
        for (Component part : construct.components()) {
            if (part.shape() instanceof ScrewShape screw) {
                RigidTransform truth = truth(screw.bone().equals("t12") ? SHIFTED : RigidTransform.IDENTITY);
                RigidTransform pose = poseOf(part.id());
                // Phantom: the scene's own motion.
                assertEquals(0, truth.apply(screw.tip()).distanceTo(pose.apply(screw.tip())), NEAR_MM, part.id());
                assertEquals(0, truth.apply(screw.head()).distanceTo(pose.apply(screw.head())), NEAR_MM, part.id());
            }
        }
    }

    @Test
    void everyBoneIsFoundWithoutItsMetal() {
        for (Bone bone : construct.bones()) {
            RigidTransform truth = truth(bone.id().equals("t12") ? SHIFTED : RigidTransform.IDENTITY);
            FoundPose pose = poses().bones().get(bone.id()).value().orElseThrow();
            PatientPoint middle = FIRST.apply(new PatientPoint(0, 5, bone.id().equals("t12") ? 35 : -35));
            // Phantom: the scene's own motion.
            assertEquals(
                    0, truth.apply(middle).distanceTo(pose.referenceToExam().apply(middle)), NEAR_MM, bone.id());
        }
    }

    @Test
    void aShiftedVertebrasScrewsAreAGroupOfTheirOwn() {
        assertTrue(
                poses().groups().contains(Set.of("screw-t12-left", "screw-t12-right")),
                poses().groups().toString());
        assertTrue(
                poses().groups().contains(Set.of("body-l1")), poses().groups().toString());
    }

    @Test
    void aSunkenPorousBodyIsReadFromItsCore() {
        Migration.Motion lower = new MigrationMeasure(construct, MotionSettings.withDefaults())
                .of("body-l1", poses()).stream()
                        .filter(m -> m.bone().equals("l2"))
                        .findFirst()
                        .orElseThrow()
                        .motion()
                        .value()
                        .orElseThrow();
        // Phantom: the body sank by 2 mm towards the lower vertebra, which stayed.
        assertEquals(2, lower.intoBoneMm().value().orElseThrow(), SUNK_MM);
        assertTrue(!lower.isWithinError());
    }

    @Test
    void aSmoothScrewSaysThatItsSpinIsNotSeen() {
        ExamPoses.PartPose screw = poses().parts().get("screw-t12-left").value().orElseThrow();
        assertTrue(screw.undetermined().contains("open"), screw.undetermined());
        // Phantom: the vertebra's motion carries the screw's middle by about 3 mm; it turned by 5°.
        assertEquals(5, screw.motionDeg(), 0.3);
        assertTrue(screw.motionMm() > 1);
    }

    @Test
    void missingScrewsAreARefusal() {
        SpineScene without = IMPLANTED.built(new SpineScene.Build(1, 1, 1, 2, 2));
        HuVolume exam = scan(LATER, 3, without);
        Answer<ExamPoses> refused = finder.find(exam, Optional.empty(), Progress.NONE);
        assertTrue(refused.value().isEmpty());
        assertTrue(refused.why().contains("another patient or re-operated?"), refused.why());
        // A pose that a person gives is kept, and what is missing is told part by part.
        ExamPoses given = finder.find(exam, Optional.of(truth(RigidTransform.IDENTITY)), Progress.NONE)
                .value()
                .orElseThrow();
        assertEquals(ExamScan.PoseKind.NUDGED, given.construct().kind());
        assertEquals(truth(RigidTransform.IDENTITY), given.construct().referenceToExam());
        assertTrue(given.parts().get("screw-l2-left").value().isEmpty());
        assertTrue(given.parts().get("screw-t12-left").value().isPresent());
    }

    @Test
    void theReferenceItselfHasNotMoved() {
        ExamPoses still = PoseFinder.ofReference(construct);
        List<Migration> body = new MigrationMeasure(construct, MotionSettings.withDefaults()).of("body-l1", still);
        assertEquals(2, body.size());
        assertTrue(body.stream().allMatch(m -> m.motion().value().orElseThrow().isWithinError()));
        assertEquals(ExamScan.PoseKind.IDENTITY, still.construct().kind());
    }

    @Test
    void stopsWhenAsked() {
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> finder.find(later, Optional.empty(), cancelled));
    }

    private static ExamPoses poses() {
        return found.value().orElseThrow(() -> new AssertionError(found.why()));
    }

    private static RigidTransform poseOf(String part) {
        return poses().parts()
                .get(part)
                .value()
                .orElseThrow(() -> new AssertionError(poses().parts().get(part).why()))
                .pose()
                .referenceToExam();
    }
}
