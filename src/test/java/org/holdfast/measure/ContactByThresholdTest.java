package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

class ContactByThresholdTest {

    /** Porous face 2100 HU, front 700 HU of 0.8 mm, trabecular bone 260 HU, as in the definitions' worked simulation. */
    private static final ProfileModel MODEL = new ProfileModel(2100, 30, 700, 0.8, 260, 0.42);

    /** Samples lie on a grid of 0.5 mm; a border between two gaps may shift by one row of 32. */
    private static final double ONE_ROW = 1.0 / 32;

    private final LayeredFace layered = new LayeredFace(MODEL);

    private ThresholdContact measure(java.util.function.DoubleBinaryOperator gapMm) {
        return measure(layered.exam(gapMm));
    }

    private ThresholdContact measure(ExamScan exam) {
        return new ContactByThreshold(layered.construct, layered.face(), MeasurementSettings.withDefaults())
                .measureReference(exam)
                .contact();
    }

    @Test
    void callsBoneOnTheImplantContactAndWideGapsNot() {
        ThresholdContact contact = measure((x, y) -> x < 0 ? 0 : y < 0 ? 3 : 20);
        // Phantom: half the face with gap 0, a quarter with gap 3 mm, a quarter without bone.
        assertEquals(0.5, contact.fraction().value().orElseThrow(), ONE_ROW);
        assertEquals(0, contact.notAssessable(), 0);
        assertEquals(contact.fraction().value().orElseThrow(), contact.low(), 1e-12);
        assertEquals(contact.fraction().value().orElseThrow(), contact.high(), 1e-12);
        assertEquals(256, contact.areaMm2(), 1e-9);
    }

    @Test
    void findsTheImplantsEdgeAtTheHalfMaximum() {
        ThresholdContact contact = measure((x, y) -> 20);
        for (SampleReading reading : contact.readings()) {
            // Phantom: with fluid beyond the face the half-maximum of the blurred edge is the edge itself, z = 0.
            assertEquals(0, reading.edgeMm().orElseThrow(), 0.02);
            assertEquals(Tissue.NO_BONE, reading.tissue());
        }
    }

    @Test
    void placesTheBoneThresholdMidwayBetweenFluidAndHost() {
        ThresholdContact contact = measure((x, y) -> 0);
        // By hand: host 260 HU read at 4 to 8 mm, fluid 30 HU, (30 + 260) / 2 = 145.
        assertEquals(260, contact.hostHu().value().orElseThrow(), 1);
        assertEquals(145, contact.boneHu(), 1);
        assertEquals("midway between fluid and host bone", contact.boneRule());
    }

    @Test
    void estimatesTheFrontThatTheDetectionLimitNeeds() {
        ThresholdContact contact = measure((x, y) -> x < 0 ? 1 : 2.5);
        // Phantom: the front is 700 HU and 0.8 mm thick, which is also the thickness that the fit takes.
        assertEquals(700, contact.frontHu().value().orElseThrow(), 40);
    }

    @Test
    void seesGapsFromItsStatedLimitOn() {
        ThresholdContact first = measure((x, y) -> x < 0 ? 0 : 2.5);
        double limit = first.smallestVisibleGapMm().value().orElseThrow();
        assertTrue(limit > 1 && limit < 2, () -> "limit " + limit);
        ThresholdContact under = measure((x, y) -> x < 0 ? limit - 0.1 : 2.5);
        ThresholdContact over = measure((x, y) -> x < 0 ? limit + 0.1 : 2.5);
        assertEquals(0.5, under.fraction().value().orElseThrow(), ONE_ROW);
        assertEquals(0, over.fraction().value().orElseThrow(), ONE_ROW);
    }

    @Test
    void doesNotApplyWhereBoneOnTheImplantWouldStayUnderTheThreshold() {
        ProfileModel weak = new ProfileModel(2100, 30, 130, 0.8, 130, 0.42);
        LayeredFace soft = new LayeredFace(weak);
        MeasurementSettings fixed = settings(Map.of("boneThreshold", "\"FIXED\"", "fixedBoneHu", "250"));
        ThresholdContact contact = new ContactByThreshold(soft.construct, soft.face(), fixed)
                .measureReference(soft.exam((x, y) -> 0))
                .contact();
        // Source: measurement definitions, section 3 step 5: a fixed 250 HU inverts in bone of 130 HU.
        assertTrue(contact.fraction().value().isEmpty());
        assertTrue(contact.fraction().why().contains("bone below threshold beyond guard"));
        assertTrue(contact.smallestVisibleGapMm().value().isEmpty());
    }

    @Test
    void statesNoFractionWhereUnderHalfIsAssessable() {
        ExamScan exam = layered.exam((x, y) -> 0);
        ExamScan streaked = layered.exam(withHu(exam.volume(), -500, x -> x > -2), Acquisition.unknown());
        ThresholdContact contact = measure(streaked);
        assertTrue(contact.fraction().value().isEmpty());
        // Phantom: x > −2 of −8 to 8 is dark, 10 of 16 mm; interpolation reaches half a voxel further.
        assertEquals(10.0 / 16, contact.notAssessable(), ONE_ROW);
        assertEquals(contact.notAssessable(), contact.obstacles().get(Obstacle.DARK_STREAK), 1e-12);
    }

    @Test
    void boundsWidenByWhatCannotBeAssessed() {
        ExamScan exam = layered.exam((x, y) -> y < 0 ? 0 : 3);
        ThresholdContact contact =
                measure(layered.exam(withHu(exam.volume(), -500, x -> x > 4), Acquisition.unknown()));
        double hidden = contact.notAssessable();
        // By hand: a quarter of the face is hidden, half of the rest is contact: 0.5 of assessable, 0.375 to 0.625 of
        // all.
        assertEquals(0.25, hidden, ONE_ROW);
        assertEquals(0.5, contact.fraction().value().orElseThrow(), ONE_ROW);
        assertEquals(0.375, contact.low(), ONE_ROW);
        assertEquals(0.625, contact.high(), ONE_ROW);
    }

    @Test
    void keepsEdgeAndThresholdOfTheReferenceExam() {
        ContactByThreshold estimator =
                new ContactByThreshold(layered.construct, layered.face(), MeasurementSettings.withDefaults());
        ContactByThreshold.Measured reference = estimator.measureReference(layered.exam((x, y) -> 2.5));
        ThresholdContact later = estimator
                .measureFollowUp(layered.exam((x, y) -> x < 0 ? 0 : 2.5), reference.reference())
                .contact();
        assertEquals(reference.contact().boneHu(), later.boneHu(), 0);
        assertEquals(0.5, later.fraction().value().orElseThrow(), ONE_ROW);
        for (int n = 0; n < later.readings().size(); n++) {
            assertEquals(
                    reference.contact().readings().get(n).edgeMm(),
                    later.readings().get(n).edgeMm());
        }
    }

    @Test
    void tellsBridgingFromAFleckOnTheImplant() {
        ExamScan bridged = layered.exam((x, y) -> 0);
        ThresholdContact through = measure(bridged);
        assertEquals(1, through.bridged().value().orElseThrow(), ONE_ROW);
        // A plate of bone 1.5 mm thick on the implant, then 3 mm of fluid, then the host.
        HuVolume fleck = withSlab(bridged.volume(), 2.0, 4.5);
        ThresholdContact flecked = measure(layered.exam(fleck, Acquisition.unknown()));
        assertEquals(1, flecked.fraction().value().orElseThrow(), ONE_ROW);
        assertEquals(0, flecked.bridged().value().orElseThrow(), ONE_ROW);
    }

    @Test
    void statesNoFractionForAThresholdThatFluidReaches() throws SettingsException {
        MeasurementSettings low = SettingsJson.parse("{\"boneThreshold\": \"FIXED\", \"fixedBoneHu\": 125}", "test");
        ThresholdContact contact = new ContactByThreshold(layered.construct, layered.face(), low)
                .measureReference(layered.exam((x, y) -> x < 0 ? 0 : 3))
                .contact();
        // By hand: 125 − 100 = 25 HU lies under fluid, 30 HU; 125 − 50 = 75 HU over it.
        assertTrue(contact.sensitivity().get(-100).why().contains("over fluid"));
        assertTrue(contact.sensitivity().get(-50).value().isPresent());
    }

    @Test
    void fallsWithARisingThreshold() {
        ThresholdContact contact = measure((x, y) -> 0.9 + 0.05 * (x + 8));
        double last = Double.POSITIVE_INFINITY;
        for (int change : new int[] {-50, 50, 100}) {
            double fraction = contact.sensitivity().get(change).value().orElseThrow();
            assertTrue(fraction <= last + 1e-12, "fraction must not rise with the threshold, at " + change);
            last = fraction;
        }
        assertTrue(contact.jitterSd().value().orElseThrow() >= 0);
    }

    @Test
    void verdictComesBeforeTheNumber() {
        LayeredFace peek = new LayeredFace(MODEL, Filler.NONE, Material.PEEK);
        InterfaceExam exam = new InterfaceCourse(peek.construct, peek.face(), MeasurementSettings.withDefaults())
                .measure(peek.exam((x, y) -> 0));
        assertEquals(Verdict.Value.READER_ONLY, exam.verdict().value());
        assertFalse(exam.contact().isPresent());

        LayeredFace grafted = new LayeredFace(MODEL, Filler.AUTOGRAFT, Material.TITANIUM_POROUS);
        InterfaceExam change = new InterfaceCourse(
                        grafted.construct, grafted.face(), MeasurementSettings.withDefaults())
                .measure(grafted.exam((x, y) -> 0));
        assertEquals(Verdict.Value.CHANGE_ONLY, change.verdict().value());
        assertTrue(change.contact().isPresent());
    }

    private static MeasurementSettings settings(Map<String, String> fields) {
        StringBuilder json = new StringBuilder("{");
        fields.forEach((name, value) -> json.append(json.length() > 1 ? "," : "")
                .append('"')
                .append(name)
                .append("\":")
                .append(value));
        try {
            return SettingsJson.parse(json.append('}').toString(), "test");
        } catch (SettingsException e) {
            throw new AssertionError(e);
        }
    }

    /** The volume with all voxels beyond the face set to a HU where x passes the test. */
    private static HuVolume withHu(HuVolume volume, int hu, java.util.function.DoublePredicate where) {
        return changed(volume, (x, z) -> z > 0.6 && z < 3 && where.test(x), hu);
    }

    /** The volume with fluid between two heights. */
    private static HuVolume withSlab(HuVolume volume, double fromMm, double toMm) {
        return changed(volume, (x, z) -> z > fromMm && z < toMm, 30);
    }

    private interface Place {
        boolean test(double x, double z);
    }

    private static HuVolume changed(HuVolume volume, Place where, int hu) {
        var grid = volume.grid();
        short[][] copy = new short[grid.slices()][grid.columns() * grid.rows()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int j = 0; j < grid.rows(); j++) {
                for (int i = 0; i < grid.columns(); i++) {
                    var p = grid.voxelToPatient(new org.holdfast.volume.VoxelIndex(i, j, k));
                    copy[k][i + grid.columns() * j] =
                            where.test(p.x(), p.z()) ? (short) hu : (short) volume.hu(i, j, k);
                }
            }
        }
        return HuVolume.ofHu(grid, copy);
    }
}
