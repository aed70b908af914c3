package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.holdfast.construct.Axes;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/** Muscle beside the spine and air round the patient, on small made volumes. */
class HuPlausibilityTest {

    /** The vertebral body's middle at the origin, so that muscle is looked for 35 mm to the sides and 35 to 55 behind. */
    private static final Axes AXES =
            new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL);

    private static final int COLUMNS = 50;
    private static final int ROWS = 50;
    private static final int SLICES = 9;
    /** Rows from this on lie in front of the patient's back; before it is air. */
    private static final int BODY_FROM = 12;

    /** Voxels of 2 mm, x −50 to 48, y −28 to 70, z −8 to 8 mm: air in the first rows, then muscle; noise of SD 15 HU. */
    private static HuVolume volume(int airHu, int muscleHu, double noiseSdHu) {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[SLICES][COLUMNS * ROWS];
        Random random = new Random(11);
        for (int k = 0; k < SLICES; k++) {
            origins.add(new PatientPoint(-50, -28, -8 + 2 * k));
            for (int n = 0; n < hu[k].length; n++) {
                int level = n / COLUMNS < BODY_FROM ? airHu : muscleHu;
                hu[k][n] = (short) Math.max(-1024, Math.rint(level + noiseSdHu * random.nextGaussian()));
            }
        }
        return HuVolume.ofHu(
                new VolumeGrid(COLUMNS, ROWS, 2, 2, PatientVector.LEFT, PatientVector.POSTERIOR, origins), hu);
    }

    private static List<Finding> check(HuVolume volume) {
        return HuPlausibility.check(volume, AXES, RigidTransform.IDENTITY, "6 mo");
    }

    private static List<String> codes(HuVolume volume) {
        return check(volume).stream().map(Finding::code).toList();
    }

    @Test
    void plausibleMuscleAndAirSayNothing() {
        assertEquals(List.of(), codes(volume(-1000, 55, 15)));
        assertEquals(List.of(), codes(volume(-1000, 0, 0)));
        assertEquals(List.of(), codes(volume(-1000, 90, 0)));
    }

    @Test
    void muscleOutsideItsRangeIsAWarning() {
        for (int muscle : new int[] {200, 91, -1, -300}) {
            List<Finding> findings = check(volume(-1000, muscle, 0));
            assertEquals(1, findings.size());
            assertEquals("MUSCLE_HU", findings.get(0).code());
            assertEquals(Severity.WARNING, findings.get(0).severity());
            assertTrue(
                    findings.get(0).text().contains("reads " + muscle + " HU"),
                    findings.get(0).text());
            assertEquals("6 mo", findings.get(0).where());
        }
    }

    @Test
    void airThatIsTooBrightIsAWarning() {
        for (int air : new int[] {-700, -899, -600}) {
            List<Finding> findings = check(volume(air, 55, 0));
            assertEquals(1, findings.size(), "air " + air);
            assertEquals("AIR_HU", findings.get(0).code());
            assertTrue(
                    findings.get(0).text().contains("reads " + air + " HU"),
                    findings.get(0).text());
        }
        assertEquals(List.of(), codes(volume(-901, 55, 0)));
    }

    @Test
    void lungIsNotTakenForAir() {
        // Lung is uneven: vessels and airways; here −800 HU with SD 120.
        assertEquals(List.of("AIR_NOT_CHECKED"), codes(volume(-800, 55, 120)).subList(0, 1));
    }

    @Test
    void muscleOnOneSideIsEnough() {
        HuVolume whole = volume(-1000, 55, 0);
        VolumeGrid grid = whole.grid();
        short[][] hu = new short[SLICES][COLUMNS * ROWS];
        for (int k = 0; k < SLICES; k++) {
            for (int n = 0; n < hu[k].length; n++) {
                int i = n % COLUMNS;
                hu[k][n] = (short) (i < COLUMNS / 2 && n / COLUMNS >= BODY_FROM ? 400 : whole.hu(i, n / COLUMNS, k));
            }
        }
        assertEquals(List.of(), codes(HuVolume.ofHu(grid, hu)));
    }

    @Test
    void saysThatNothingCouldBeChecked() {
        List<PatientPoint> origins = List.of(new PatientPoint(0, 0, 0), new PatientPoint(0, 0, 2));
        HuVolume small = HuVolume.ofHu(
                new VolumeGrid(4, 4, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins), new short[2][16]);
        assertEquals(List.of("MUSCLE_NOT_CHECKED", "AIR_NOT_CHECKED"), codes(small));
        check(small).forEach(f -> assertEquals(Severity.INFO, f.severity()));
    }

    @Test
    void followsThePatientIntoTheExam() {
        HuVolume volume = volume(-1000, 55, 0);
        RigidTransform away = RigidTransform.translation(new PatientVector(500, 0, 0));
        assertEquals(
                List.of("MUSCLE_NOT_CHECKED"),
                HuPlausibility.check(volume, AXES, away, "6 mo").stream()
                        .map(Finding::code)
                        .toList());
    }
}
