package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
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

/** A simulated vertebra with screws that moved against the rest by a known amount. */
class IntensityRegistrationTest {

    /** The goal for repeats of a motion: 0.05 mm and 0.1° as 1.96 SD. */
    private static final double GOAL_MM = 0.05;

    private static final double GOAL_DEG = 0.1;

    private static final RigidTransform SCENE_TO_REFERENCE = RigidTransform.rotation(
                    new PatientVector(1, 2, -1), 4, PatientPoint.ORIGIN)
            .then(RigidTransform.translation(new PatientVector(10, -120, 30)));
    private static final RigidTransform REFERENCE_TO_EXAM = RigidTransform.rotation(
                    PatientVector.CRANIAL, 7, new PatientPoint(10, -120, 30))
            .then(RigidTransform.translation(new PatientVector(3, 5, -7)));
    /** The upper level's motion in the scene: 3 mm and 5°, as much as a vertebra may shift. */
    private static final RigidTransform MOVED = RigidTransform.rotation(
                    new PatientVector(2, 1, -1), 5, new PatientPoint(0, 0, 32))
            .then(RigidTransform.translation(new PatientVector(1, -2, 2)));

    private static HuVolume reference;
    private static HuVolume exam;
    private static IntensityRegistration registration;

    @BeforeAll
    static void scan() {
        reference = MetalScene.asImplanted().scan(SCENE_TO_REFERENCE, 1);
        exam = MetalScene.asImplanted()
                .withUpperMoved(MOVED)
                .scanned(0.9, new PointSpread(0.45, 0.42), 30, HuScale.CLIPPED_3071)
                .scan(SCENE_TO_REFERENCE.then(REFERENCE_TO_EXAM), 2);
        registration = new IntensityRegistration(reference, nearMetal(reference), exam, nearMetal(exam));
    }

    /** Places within 3 mm of metal's surface, and metal itself. */
    private static Predicate<PatientPoint> nearMetal(HuVolume volume) {
        PointTree tree = new PointTree(MetalSurface.of(volume, 1600, Progress.NONE));
        return p -> volume.sample(p) > 1600 || tree.search().nearest(p.x(), p.y(), p.z(), 0, 0, 0, -2, 3) >= 0;
    }

    private static List<PatientPoint> region(double halfX, double halfY, double lowZ, double highZ) {
        List<PatientPoint> region = new ArrayList<>();
        for (double x = -halfX; x <= halfX; x++) {
            for (double y = -halfY; y <= halfY; y++) {
                for (double z = lowZ; z <= highZ; z++) {
                    region.add(SCENE_TO_REFERENCE.apply(new PatientPoint(x, y, z)));
                }
            }
        }
        return region;
    }

    private static List<PatientPoint> vertebra() {
        return region(24, 15, 19, 38);
    }

    private static RigidTransform truth() {
        return SCENE_TO_REFERENCE.inverse().then(MOVED).then(SCENE_TO_REFERENCE).then(REFERENCE_TO_EXAM);
    }

    private static void assertOnTruth(PoseResult result) {
        if (result instanceof PoseResult.Refused refused) {
            throw new AssertionError(refused.reason());
        }
        PoseResult.Found found = result.found().orElseThrow();
        PatientPoint middle = SCENE_TO_REFERENCE.apply(new PatientPoint(0, 0, 30));
        assertEquals(0, found.referenceToExam().apply(middle).distanceTo(truth().apply(middle)), GOAL_MM);
        assertEquals(0, truth().inverse().then(found.referenceToExam()).rotationAngleDeg(), GOAL_DEG);
        assertTrue(found.quality().correlation().orElseThrow() > 0.95, "" + found.quality());
    }

    @Test
    void followsAVertebraThatShiftedByThreeMillimetresAndFiveDegrees() {
        assertOnTruth(
                registration.register(vertebra(), REFERENCE_TO_EXAM, IntensitySettings.withDefaults(), Progress.NONE));
    }

    @Test
    void capturesTenMillimetresAndTenDegrees() {
        PatientPoint middle = truth().apply(SCENE_TO_REFERENCE.apply(new PatientPoint(0, 0, 30)));
        RigidTransform off = truth().then(RigidTransform.rotation(new PatientVector(1, -1, 1), 9.9, middle))
                .then(RigidTransform.translation(new PatientVector(6, -6, 5)));
        assertOnTruth(registration.register(vertebra(), off, IntensitySettings.withDefaults(), Progress.NONE));
    }

    @Test
    void doesNotMindAnotherGainAndOffset() {
        // Another tube voltage: every HU in tissue scaled and shifted.
        short[][] hu = new short[exam.grid().slices()][];
        float[] slice = new float[exam.grid().columns() * exam.grid().rows()];
        for (int k = 0; k < hu.length; k++) {
            exam.copySlice(k, slice);
            hu[k] = new short[slice.length];
            for (int v = 0; v < slice.length; v++) {
                hu[k][v] = (short) Math.round(0.75 * slice[v] + 15);
            }
        }
        HuVolume other = HuVolume.ofHu(exam.grid(), hu);
        PoseResult result = new IntensityRegistration(reference, nearMetal(reference), other, nearMetal(other))
                .register(vertebra(), REFERENCE_TO_EXAM, IntensitySettings.withDefaults(), Progress.NONE);
        assertOnTruth(result);
    }

    @Test
    void refusesWhatIsNotThereOrTellsNothing() {
        RigidTransform away = REFERENCE_TO_EXAM.then(RigidTransform.translation(new PatientVector(0, 300, 0)));
        PoseResult outside = registration.register(vertebra(), away, IntensitySettings.withDefaults(), Progress.NONE);
        assertTrue(((PoseResult.Refused) outside).reason().contains("does not lie inside"));
        // Fluid behind the vertebrae: noise only.
        PoseResult fluid = registration.register(
                region(8, 4, -10, 10).stream()
                        .map(p -> p.plus(SCENE_TO_REFERENCE.apply(new PatientVector(0, 24, 0))))
                        .toList(),
                REFERENCE_TO_EXAM,
                IntensitySettings.withDefaults(),
                Progress.NONE);
        assertTrue(fluid.found().isEmpty(), "fluid gave " + fluid);
        PoseResult few = registration.register(
                List.of(PatientPoint.ORIGIN), away, IntensitySettings.withDefaults(), Progress.NONE);
        assertTrue(((PoseResult.Refused) few).reason().contains("too little bone"));
    }

    @Test
    void stopsWhenAsked() {
        Progress cancelled = Progress.NONE.orCancelledIf(() -> true);
        assertThrows(
                CancellationException.class,
                () -> registration.register(
                        vertebra(), REFERENCE_TO_EXAM, IntensitySettings.withDefaults(), cancelled));
    }
}
