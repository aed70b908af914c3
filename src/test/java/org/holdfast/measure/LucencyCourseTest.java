package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Material;
import org.holdfast.phantom.Scene;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** What can be asked of a screw's zone, by material, day and kind of scan. */
class LucencyCourseTest {

    private static final ScrewScan SCAN = new ScrewScan(ComponentKind.PEDICLE_SCREW, Material.TITANIUM_SOLID);
    private static final HuVolume EMPTY = SCAN.scan(Scene.of(50));

    private static LucencyCourse.Exam measured(ScrewScan scan, Acquisition acquisition) {
        return new LucencyCourse(scan.construct, scan.first(), MeasurementSettings.withDefaults())
                .measure(scan.exam(EMPTY, acquisition));
    }

    @Test
    void artefactReducedSeriesAloneConfirmsNoZoneAndNoAbsence() {
        LucencyCourse.Exam exam = measured(SCAN, Acquisitions.of(Optional.empty(), Known.YES, Known.NO));
        assertEquals(Verdict.Value.READER_ONLY, exam.verdict().value());
        assertTrue(exam.lucency().why().contains("unconfirmed until another series or a radiograph"));
    }

    @Test
    void unknownArtefactReductionIsSaid() {
        Verdict verdict = LucencyVerdict.before(
                SCAN.first(), SCAN.exam(EMPTY, Acquisitions.of(Optional.empty(), Known.UNKNOWN, Known.NO)));
        assertEquals(Verdict.Value.ANSWERABLE, verdict.value());
        assertTrue(verdict.causes().get(0).startsWith("not known whether the series is artefact-reduced"));
    }

    @Test
    void coneBeamAndCarbonAreForAReader() {
        assertEquals(
                Verdict.Value.READER_ONLY,
                measured(SCAN, Acquisitions.of(Optional.empty(), Known.NO, Known.YES))
                        .verdict()
                        .value());
        ScrewScan carbon = new ScrewScan(ComponentKind.PEDICLE_SCREW, Material.CARBON);
        assertEquals(
                Verdict.Value.READER_ONLY,
                measured(carbon, Acquisition.unknown()).verdict().value());
    }

    @Test
    void screwNotInThePatientOnTheDayIsNotAnswerable() {
        LucencyCourse.Exam exam = measured(SCAN, Acquisitions.on(ScrewScan.IMPLANTED.minusDays(1)));
        assertEquals(Verdict.Value.NOT_ANSWERABLE, exam.verdict().value());
        assertEquals(
                "first screw was not in the patient on 2029-12-31",
                exam.lucency().why());
    }

    @Test
    void scanWithoutMetalInTheScrewSaysSo() {
        LucencyCourse.Exam exam = measured(SCAN, Acquisition.unknown());
        assertEquals(Verdict.Value.NOT_ANSWERABLE, exam.verdict().value());
        assertEquals("no metal seen in the laid-out screw", exam.lucency().why());
    }

    @Test
    void partThatIsNoScrewIsRefused() {
        LayeredFace face = new LayeredFace(new ProfileModel(2100, 30, 700, 0.8, 260, 0.42));
        assertThrows(
                IllegalArgumentException.class,
                () -> new LucencyCourse(
                        face.construct, face.construct.component("body"), MeasurementSettings.withDefaults()));
    }
}
