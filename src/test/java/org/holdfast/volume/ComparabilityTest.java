package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.Comparability.Difference;
import org.holdfast.volume.Comparability.Effect;
import org.junit.jupiter.api.Test;

class ComparabilityTest {

    /** An acquisition of which everything is known; the tests change one value each. */
    private static final class Facts {
        private OptionalDouble kvp = OptionalDouble.of(120);
        private String kernel = "Bone 60";
        private String reconstruction = "";
        private OptionalDouble thickness = OptionalDouble.of(0.8);
        private OptionalDouble field = OptionalDouble.of(200);
        private Known contrast = Known.NO;
        private Known reduction = Known.NO;
        private OptionalDouble energy = OptionalDouble.empty();
        private String detector = "energy integrating";
        private String scanner = "Invented One";
        private String posture = "HFS";
        private Known coneBeam = Known.NO;
        private Optional<LossyCompression> lossy = Optional.empty();
        private double spacing = 0.45;
        private double pitch = 0.6;
        private OptionalDouble noise = OptionalDouble.of(25);

        ScanFacts scan() {
            Acquisition acquisition = new Acquisition(
                    Optional.of(LocalDate.of(2031, 2, 3)),
                    kvp,
                    kernel,
                    reconstruction,
                    thickness,
                    field,
                    contrast,
                    reduction,
                    energy,
                    detector,
                    scanner,
                    posture,
                    coneBeam,
                    lossy);
            VolumeGrid grid = new VolumeGrid(
                    4,
                    4,
                    spacing,
                    spacing,
                    TestGrids.X,
                    TestGrids.Y,
                    TestGrids.origins(PatientPoint.ORIGIN, new PatientVector(0, 0, pitch), 3));
            return new ScanFacts(acquisition, grid, noise);
        }
    }

    private final Facts reference = new Facts();
    private final Facts later = new Facts();

    @Test
    void compressionWithLossIsTold() {
        later.lossy = Optional.of(new LossyCompression("JPEG", OptionalDouble.empty(), OptionalInt.empty()));
        assertEquals("lossy", only().field());
        assertEquals(Effect.CAUTION, only().effect());
        assertEquals("none", only().referenceValue());
        assertEquals("JPEG", only().followUpValue());
    }

    private Difference only() {
        List<Difference> differences = Comparability.between(reference.scan(), later.scan());
        assertEquals(1, differences.size(), differences.toString());
        return differences.get(0);
    }

    @Test
    void scansMadeAlikeDifferInNothing() {
        assertEquals(List.of(), Comparability.between(reference.scan(), later.scan()));
    }

    @Test
    void anotherTubeVoltageForbidsHuComparison() {
        later.kvp = OptionalDouble.of(140);

        assertEquals(
                new Difference(
                        "kvp",
                        "Tube voltage",
                        "120 kV",
                        "140 kV",
                        Effect.NO_HU_COMPARISON,
                        "Tube voltage: 120 kV on the reference exam, 140 kV on this one; HU of the same tissue differ, so no"
                                + " change map, no joined line and no difference of HU-based numbers between them."),
                only());
        assertFalse(Comparability.allowsHuComparison(List.of(only())));
    }

    @Test
    void anotherKernelForbidsHuComparison() {
        later.kernel = "Soft 40";

        assertEquals("kernel", only().field());
        assertEquals(Effect.NO_HU_COMPARISON, only().effect());
    }

    @Test
    void kernelIsTheSameInOtherSpacingAndCase() {
        later.kernel = " bone  60 ";

        assertEquals(List.of(), Comparability.between(reference.scan(), later.scan()));
    }

    @Test
    void anotherEnergyForbidsHuComparison() {
        reference.energy = OptionalDouble.of(70);
        later.energy = OptionalDouble.of(130);

        assertEquals("monoEnergyKeV", only().field());
        assertEquals(Effect.NO_HU_COMPARISON, only().effect());
        assertEquals("70 keV", only().referenceValue());
    }

    @Test
    void aMonoenergeticImageIsNotComparedWithAnOrdinaryOne() {
        later.energy = OptionalDouble.of(130);

        assertEquals(Effect.NO_HU_COMPARISON, only().effect());
        assertEquals(
                "One exam is a virtual monoenergetic image at 130 keV, the other is not: HU of the same tissue differ, so"
                        + " no change map, no joined line and no difference of HU-based numbers between them.",
                only().sentence());
    }

    @Test
    void aConeBeamVolumeForbidsHuComparison() {
        reference.coneBeam = Known.YES;
        later.coneBeam = Known.YES;

        assertEquals("coneBeam", only().field());
        assertEquals(Effect.NO_HU_COMPARISON, only().effect());
    }

    @Test
    void artefactReductionOnOneSideForbidsHuComparison() {
        later.reduction = Known.YES;

        assertEquals("artefactReduction", only().field());
        assertEquals(Effect.NO_HU_COMPARISON, only().effect());

        later.reduction = Known.UNKNOWN;
        assertEquals(Effect.CAUTION, only().effect());
    }

    @Test
    void whatForbidsComesFirst() {
        later.posture = "FFS";
        later.scanner = "";
        later.kernel = "Soft 40";

        List<Difference> differences = Comparability.between(reference.scan(), later.scan());

        assertEquals(
                List.of("kernel", "scannerModel", "posture"),
                differences.stream().map(Difference::field).toList());
    }

    @Test
    void acquisitionsAloneAreComparedAlike() {
        later.kvp = OptionalDouble.of(100);
        later.pitch = 2;

        List<Difference> differences = Comparability.between(
                reference.scan().acquisition(), later.scan().acquisition());

        assertEquals(List.of("kvp"), differences.stream().map(Difference::field).toList());
    }

    @Test
    void everythingElseIsACaution() {
        later.reconstruction = "ITERATIVE 3";
        later.thickness = OptionalDouble.of(1);
        later.field = OptionalDouble.of(250);
        later.contrast = Known.YES;
        later.detector = "photon counting";
        later.scanner = "Invented Two";
        later.posture = "FFS";
        later.spacing = 0.5;
        later.pitch = 0.8;
        later.noise = OptionalDouble.of(40);

        List<Difference> differences = Comparability.between(reference.scan(), later.scan());

        assertEquals(
                List.of(
                        "reconstruction",
                        "sliceThicknessMm",
                        "fieldOfViewMm",
                        "contrastAgent",
                        "detector",
                        "scannerModel",
                        "posture",
                        "pitchMm",
                        "pixelSpacingMm",
                        "noiseSdHu"),
                differences.stream().map(Difference::field).toList());
        assertTrue(Comparability.allowsHuComparison(differences));
        assertEquals("none named", differences.get(0).referenceValue());
        assertEquals("0.45 × 0.45 mm", differences.get(8).referenceValue());
        assertEquals(
                "Contrast agent: no on the reference exam, yes on this one; part of a change in HU may come from it.",
                differences.get(3).sentence());
    }

    @Test
    void smallDifferencesDoNotCount() {
        // By hand: 0.8 and 0.807 mm are within 1 %, 25 and 30 HU within 20 % of the larger
        later.thickness = OptionalDouble.of(0.807);
        later.pitch = 0.604;
        later.spacing = 0.452;
        later.noise = OptionalDouble.of(30);

        assertEquals(List.of(), Comparability.between(reference.scan(), later.scan()));
    }

    @Test
    void saysWhatIsNotKnownOnWhichSide() {
        reference.kvp = OptionalDouble.empty();
        assertEquals(
                new Difference(
                        "kvp",
                        "Tube voltage",
                        "unknown",
                        "120 kV",
                        Effect.CAUTION,
                        "Tube voltage is not known on the reference exam; whether it was the same cannot be said."),
                only());

        later.kvp = OptionalDouble.empty();
        assertTrue(only().sentence().startsWith("Tube voltage is not known on either exam;"), only().sentence());

        reference.kvp = OptionalDouble.of(120);
        assertTrue(only().sentence().startsWith("Tube voltage is not known on this exam;"), only().sentence());
    }

    @Test
    void saysWhatNeitherExamGivesWhereItWouldDecide() {
        Facts facts = new Facts();
        ScanFacts unknown = new ScanFacts(Acquisition.unknown(), facts.scan().grid(), OptionalDouble.empty());

        List<Difference> differences = Comparability.between(unknown, unknown);

        // By hand: what would forbid the comparison if it differed, and is not just named where used
        assertEquals(
                List.of("kvp", "kernel", "artefactReduction"),
                differences.stream().map(Difference::field).toList());
        assertTrue(differences.stream().allMatch(d -> d.effect() == Effect.CAUTION));
    }

    @Test
    void refusesANoiseOfNothing() {
        Facts facts = new Facts();
        facts.noise = OptionalDouble.of(0);

        assertThrows(IllegalArgumentException.class, facts::scan);
    }
}
