package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.Box;
import org.holdfast.phantom.CappedCylinder;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Simulated scans of one construct in places up to 40° and 100 mm apart. */
class MetalRegistrationTest {

    /** What an easy pair reaches in the definitions' own trials. */
    private static final double EASY_MM = 0.03;
    /** Coarser, clipped, softer or partly moved: a fifteenth of a voxel at the corners, 60 mm from the middle. */
    private static final double HARD_MM = 0.06;

    private static final RigidTransform SCENE_TO_REFERENCE = RigidTransform.rotation(
                    new PatientVector(1, 2, -1), 4, PatientPoint.ORIGIN)
            .then(RigidTransform.translation(new PatientVector(10, -120, 30)));

    private static HuVolume reference;

    @BeforeAll
    static void scanTheReference() {
        reference = MetalScene.asImplanted().scan(SCENE_TO_REFERENCE, 1);
    }

    private static RigidTransform referenceToExam(PatientVector axis, double deg, PatientVector shift) {
        return RigidTransform.rotation(axis, deg, new PatientPoint(10, -120, 30))
                .then(RigidTransform.translation(shift));
    }

    /** 40° about an oblique axis and 100 mm: (60, −64, 48) is 100 long. */
    private static final RigidTransform FAR =
            referenceToExam(new PatientVector(2, -1, 1.5), 40, new PatientVector(60, -64, 48));

    private static PoseResult register(HuVolume exam) {
        return MetalRegistration.register(
                reference, exam, Optional.empty(), RegistrationSettings.withDefaults(), Progress.NONE);
    }

    private static void assertFound(PoseResult result, RigidTransform truth, double toleranceMm) {
        if (result instanceof PoseResult.Refused refused) {
            throw new AssertionError("refused: " + refused.reason());
        }
        RigidTransform pose = result.found().orElseThrow().referenceToExam();
        double error = MetalScene.cornerErrorMm(pose, truth, SCENE_TO_REFERENCE);
        assertTrue(error < toleranceMm, "corners off by " + error + " mm");
    }

    private static String reason(PoseResult result) {
        return ((PoseResult.Refused) result).reason();
    }

    @Test
    void landsFromFortyDegreesAndAHundredMillimetres() {
        HuVolume exam = MetalScene.asImplanted().scan(SCENE_TO_REFERENCE.then(FAR), 2);
        PoseResult result = register(exam);
        assertFound(result, FAR, EASY_MM);
        PoseQuality quality = result.found().orElseThrow().quality();
        assertTrue(quality.residualMm().orElseThrow() < 0.1, "" + quality);
        assertTrue(quality.overlap() > 0.95 && quality.inlierShare() > 0.98, "" + quality);
    }

    @Test
    void landsOnAClippedSofterNoisierExamOfAnotherGrid() {
        MetalScene scene = MetalScene.asImplanted().scanned(0.95, new PointSpread(0.55, 0.5), 50, HuScale.CLIPPED_3071);
        assertFound(register(scene.scan(SCENE_TO_REFERENCE.then(FAR), 3)), FAR, HARD_MM);
    }

    @Test
    void landsWhereALevelMovedByFiveMillimetresAndARodBroke() {
        RigidTransform moved = RigidTransform.rotation(PatientVector.LEFT, 5, new PatientPoint(0, 0, 30))
                .then(RigidTransform.translation(new PatientVector(1, -2, -5)));
        HuVolume exam = MetalScene.asImplanted()
                .withUpperMoved(moved)
                .plus("gap of the broken rod", Box.upright(new PatientPoint(21, 39, -6), 5, 5, 0.6), 40)
                .scan(SCENE_TO_REFERENCE.then(FAR), 4);
        assertFound(register(exam), FAR, HARD_MM);
    }

    @Test
    void landsWhereTheImageCutsTheLowerLevelOff() {
        HuVolume exam = MetalScene.asImplanted()
                .scan(SCENE_TO_REFERENCE.then(FAR), new PatientPoint(-28, -16, -12), MetalScene.HIGH_CORNER, 5);
        PoseResult result = register(exam);
        assertFound(result, FAR, HARD_MM);
        double overlap = result.found().orElseThrow().quality().overlap();
        // Phantom: about two thirds of the construct's height lie in the image, with more metal at the ends.
        assertTrue(overlap > 0.5 && overlap < 0.75, "overlap " + overlap);
    }

    @Test
    void landsOnASlantedAndUnequalGrid() {
        RigidTransform near = referenceToExam(PatientVector.POSTERIOR, 6, new PatientVector(-12, 8, 20));
        RigidTransform sceneToExam = SCENE_TO_REFERENCE.then(near);
        PatientPoint middle = sceneToExam.apply(new PatientPoint(0, 17, 0));
        // A gantry tilted by 12°: slices turned about the left axis, the table still along z.
        double slant = Math.toRadians(12);
        PatientVector column = new PatientVector(0, Math.cos(slant), Math.sin(slant));
        PatientPoint corner = middle.along(PatientVector.LEFT, -34).along(column, -42);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 98; k++) {
            origins.add(corner.along(PatientVector.CRANIAL, 1.0 * (k - 48.5)));
        }
        VolumeGrid grid = new VolumeGrid(90, 112, 0.75, 0.75, PatientVector.LEFT, column, origins);
        assertFound(register(MetalScene.asImplanted().scan(sceneToExam, grid, 14)), near, EASY_MM);
    }

    @Test
    void landsFromAnyDirection() {
        // One scan, clipped and with a level that moved, in a patient space that lies elsewhere each time.
        MetalScene scene = MetalScene.asImplanted()
                .withUpperMoved(RigidTransform.translation(new PatientVector(1, -2, -4)))
                .scanned(0.95, new PointSpread(0.5, 0.5), 40, HuScale.CLIPPED_3071);
        HuVolume scan = scene.scan(SCENE_TO_REFERENCE, 13);
        Random random = new Random(3);
        for (int n = 0; n < 4; n++) {
            PatientVector axis = new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian());
            PatientVector way = new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian());
            RigidTransform elsewhere = referenceToExam(axis, 40, way.unit().times(100));
            assertFound(register(MetalScene.inAnotherSpace(scan, elsewhere)), elsewhere, HARD_MM);
        }
    }

    @Test
    void takesAStartThatIsSlightlyOffAndSearchesWhereItLeadsNowhere() {
        RigidTransform near = referenceToExam(PatientVector.LEFT, 3, new PatientVector(5, -6, 4));
        HuVolume exam = MetalScene.asImplanted().scan(SCENE_TO_REFERENCE.then(near), 6);
        AtomicInteger searches = new AtomicInteger();
        Progress listening = new Progress() {
            @Override
            public void report(double fraction, String activity) {
                searches.addAndGet(activity.startsWith("searching") ? 1 : 0);
            }

            @Override
            public boolean isCancelled() {
                return false;
            }
        };
        RegistrationSettings settings = RegistrationSettings.withDefaults();
        RigidTransform off = near.then(RigidTransform.translation(new PatientVector(-4, 3, 5)));
        assertFound(MetalRegistration.register(reference, exam, Optional.of(off), settings, listening), near, EASY_MM);
        assertEquals(0, searches.get());
        RigidTransform wrong = near.then(RigidTransform.translation(new PatientVector(300, 0, 0)));
        assertFound(
                MetalRegistration.register(reference, exam, Optional.of(wrong), settings, listening), near, EASY_MM);
        assertTrue(searches.get() > 0);
    }

    @Test
    void refusesAnotherPatientsConstruct() {
        MetalScene other = new MetalScene(
                List.of(
                        new MetalScene.Part("body", Box.upright(PatientPoint.ORIGIN, 11, 12, 14), 7500, 3, 2100),
                        new MetalScene.Part("left", rod(23, 35), 7500, 0, 7500),
                        new MetalScene.Part("right", rod(-23, 37), 7500, 0, 7500),
                        new MetalScene.Part("screw 1", screw(22, 24), 7500, 0, 7500),
                        new MetalScene.Part("screw 2", screw(-22, 24), 7500, 0, 7500),
                        new MetalScene.Part("screw 3", screw(22, -26), 7500, 0, 7500),
                        new MetalScene.Part("screw 4", screw(-22, -26), 7500, 0, 7500)),
                RigidTransform.IDENTITY,
                0.9,
                new PointSpread(0.4, 0.4),
                25,
                HuScale.EXTENDED_30710);
        String reason = reason(register(other.scan(SCENE_TO_REFERENCE, 7)));
        assertTrue(reason.contains("another patient or re-operated?"), reason);
    }

    private static CappedCylinder rod(double x, double y) {
        return new CappedCylinder(new PatientPoint(x, y, 33), new PatientPoint(x, y, -33), 2.75);
    }

    private static CappedCylinder screw(double x, double z) {
        return new CappedCylinder(new PatientPoint(x, 38, z), new PatientPoint(0.2 * x, -6, z - 4), 2.75);
    }

    @Test
    void refusesMetalThatWasTakenOutOrPutIn() {
        RigidTransform near = referenceToExam(PatientVector.LEFT, 10, new PatientVector(5, -6, 4));
        MetalScene implanted = MetalScene.asImplanted();
        String less = reason(register(
                implanted.without("upper screw").without("upper head").scan(SCENE_TO_REFERENCE.then(near), 8)));
        assertTrue(less.contains("less metal") && less.contains("re-operated?"), less);
        CappedCylinder third = new CappedCylinder(new PatientPoint(0, 45, -35), new PatientPoint(0, 44, 35), 2.5);
        String more = reason(register(implanted.plus("third rod", third, 7500).scan(SCENE_TO_REFERENCE.then(near), 9)));
        assertTrue(more.contains("more metal") && more.contains("re-operated?"), more);
    }

    @Test
    void refusesWhereTheMetalFitsTwice() {
        // Two equal blocks; the reference's image shows one of them only.
        MetalScene pair = blocks();
        HuVolume one =
                pair.scan(RigidTransform.IDENTITY, new PatientPoint(-30, -12, -12), new PatientPoint(0, 12, 12), 10);
        HuVolume both =
                pair.scan(RigidTransform.IDENTITY, new PatientPoint(-30, -12, -12), new PatientPoint(30, 12, 12), 11);
        String reason = reason(MetalRegistration.register(
                one, both, Optional.empty(), RegistrationSettings.withDefaults(), Progress.NONE));
        assertTrue(reason.contains("two poses alike"), reason);
    }

    private static MetalScene blocks() {
        return new MetalScene(
                List.of(
                        new MetalScene.Part("a", Box.upright(new PatientPoint(-15, 0, 0), 5, 7, 9), 7500, 0, 7500),
                        new MetalScene.Part("b", Box.upright(new PatientPoint(15, 0, 0), 5, 7, 9), 7500, 0, 7500)),
                RigidTransform.IDENTITY,
                0.8,
                new PointSpread(0.4, 0.4),
                10,
                HuScale.EXTENDED_30710);
    }

    @Test
    void refusesWithoutMetalAndStopsWhenAsked() {
        MetalScene bone = MetalScene.asImplanted();
        HuVolume empty =
                bone.scan(RigidTransform.IDENTITY, new PatientPoint(-30, -60, -10), new PatientPoint(-10, -40, 10), 12);
        assertTrue(reason(register(empty)).contains("no metal"), reason(register(empty)));
        Progress cancelled = Progress.NONE.orCancelledIf(() -> true);
        assertThrows(
                CancellationException.class,
                () -> MetalRegistration.register(
                        reference, reference, Optional.empty(), RegistrationSettings.withDefaults(), cancelled));
    }

    @Test
    void givesTheSamePoseEachTime() {
        RegistrationSettings settings = RegistrationSettings.withDefaults();
        PoseResult first = MetalRegistration.register(reference, reference, Optional.empty(), settings, Progress.NONE);
        PoseResult second = MetalRegistration.register(reference, reference, Optional.empty(), settings, Progress.NONE);
        assertEquals(
                first.found().orElseThrow().referenceToExam(),
                second.found().orElseThrow().referenceToExam());
        assertFound(first, RigidTransform.IDENTITY, 0.005);
    }
}
