package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SimulationTruthTest {

    private static final String AREAS =
            "{\"uLinesMm\": [-10, 0, 10], \"vLinesMm\": [-5, 0, 5]," + " \"gapMm\": [[0, 0.4], [1.3, 2]]}";
    private static final String TRUTH = "{\"exams\": [{\"label\": \"6 mo\", \"interfaces\": [{\"id\": \"upper\","
            + " \"areas\": " + AREAS + "}]}]}";

    @TempDir
    Path folder;

    private SimulationTruth read(String json) throws Exception {
        Files.writeString(folder.resolve("truth.json"), json, StandardCharsets.UTF_8);
        return SimulationTruth.read(folder);
    }

    @Test
    void givesTheShareOfTheFaceUnderAGap() throws Exception {
        SimulationTruth truth = read(TRUTH);
        // By hand: four areas of equal size with gaps 0, 0.4, 1.3 and 2 mm.
        assertEquals(0.25, truth.touchingFraction("6 mo", "upper").orElseThrow(), 1e-12);
        // By hand: 0 and 0.4 lie under 0.5; all but 2 under 1.5; all under 2.5.
        assertEquals(0.5, truth.fractionUnder("6 mo", "upper", 0.5).orElseThrow(), 1e-12);
        assertEquals(0.75, truth.fractionUnder("6 mo", "upper", 1.5).orElseThrow(), 1e-12);
        assertEquals(1, truth.fractionUnder("6 mo", "upper", 2.5).orElseThrow(), 1e-12);
    }

    @Test
    void knowsNothingOfOtherExamsAndFaces() throws Exception {
        SimulationTruth truth = read(TRUTH);
        assertEquals(OptionalDouble.empty(), truth.touchingFraction("3 mo", "upper"));
        assertEquals(OptionalDouble.empty(), truth.fractionUnder("6 mo", "lower", 1));
    }

    @Test
    void aPatientHasNone() throws Exception {
        assertTrue(SimulationTruth.read(folder).isEmpty());
    }

    @Test
    void refusesADamagedDocument() {
        assertRefused("{\"exams\": ", "not JSON");
        assertRefused("{}", "exams: expected an array");
        assertRefused(TRUTH.replace(AREAS, "{}"), "exams[].interfaces[].areas: ");
        assertRefused(TRUTH.replace("1.3", "\"1.3\""), "expected a number, found \"1.3\"");
        assertRefused(TRUTH.replace("1.3", "-1.3"), "exams[].interfaces[].areas: ");
        assertRefused(TRUTH.replace("[1.3, 2]", "[1.3]"), "exams[].interfaces[].areas: ");
    }

    @Test
    void knowsZonesBreaksAndMigration() throws Exception {
        SimulationTruth truth = SimulationTruth.read(org.holdfast.cases.SampleSubject.folder());
        // Phantom: the demo subject's scene at 12 and 24 months.
        assertEquals(OptionalDouble.of(1.5), truth.zoneMm("12 mo", "screw-l2-left"));
        assertEquals(OptionalDouble.empty(), truth.zoneMm("12 mo", "rod-left"));
        // Phantom: the right rod breaks between 12 and 24 months, with a gap of 1 mm.
        assertEquals(0, truth.breaks("12 mo", "rod-right").size());
        // Phantom: as above.
        assertEquals(1.0, truth.breaks("24 mo", "rod-right").get(0).gapAlongAxisMm(), 1e-9);
        // Phantom: the body has sunk by 2.2 mm into L2.
        assertEquals(OptionalDouble.of(2.2), truth.intoBoneMm("24 mo", "body-l1", "l2"));
        assertEquals(OptionalDouble.empty(), truth.intoBoneMm("24 mo", "rod-right", "l2"));
    }

    private void assertRefused(String json, String words) {
        UseCaseException refusal = assertThrows(UseCaseException.class, () -> read(json));
        assertTrue(refusal.getMessage().startsWith(folder.resolve("truth.json") + ": "), refusal.getMessage());
        assertTrue(refusal.getMessage().contains(words), refusal.getMessage());
    }
}
