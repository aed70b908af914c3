package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.CaseFiles;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.ConstructJson;
import org.holdfast.intake.Intake;
import org.holdfast.intake.Stack;
import org.holdfast.intake.StackChoice;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Contact on surfaces of dense bone laid out in real series without any implant: it runs through and says what it can and
 * what it cannot.
 */
class RealInputTest {

    /** From here on a plateau counts as an implant with default settings. */
    private static final double DENSE_HU = 1000;

    /** Before all of the series that have a date. */
    private static final LocalDate OPERATION = LocalDate.of(2000, 1, 1);

    @TempDir
    Path folder;

    private static Stack stack(Path exam) {
        return StackChoice.of(Intake.scan(List.of(exam), Progress.NONE), Optional.empty())
                .stack()
                .orElseThrow();
    }

    /** Lays a construct out on the densest place and measures it through the command line. */
    private JsonNode measured(Path exam, double denseHu) throws Exception {
        Stack stack = stack(exam);
        HuVolume volume = VolumeLoader.load(stack, Progress.NONE).volume();
        Path construct = folder.resolve("construct.json");
        Files.writeString(
                construct,
                ConstructJson.write(DenseBone.find(volume, denseHu).construct(stack, OPERATION)),
                StandardCharsets.UTF_8);
        CapturedTerminal terminal = new CapturedTerminal();
        int code = terminal.run(
                CapturedTerminal::commands,
                "contact",
                "--construct",
                construct.toString(),
                "--exam",
                exam.toString(),
                "--json");
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode exams = new ObjectMapper().readTree(terminal.result()).get("exams");
        assertEquals(1, exams.size());
        assertStated(exams.get(0));
        return exams.get(0);
    }

    /** Every number is finite, and what is not stated has its reason. */
    private static void assertStated(JsonNode node) {
        node.properties().forEach(field -> {
            JsonNode value = field.getValue();
            if (value.isNull()) {
                assertFalse(node.path(field.getKey() + "Why").asText().isBlank(), field.getKey());
            }
            if (value.isNumber()) {
                assertTrue(Double.isFinite(value.doubleValue()), field.getKey());
            }
            assertFalse(value.asText().equals("NaN"), field.getKey());
            assertStated(value);
        });
        if (node.isArray()) {
            node.forEach(RealInputTest::assertStated);
        }
    }

    private static List<String> codes(JsonNode exam) {
        return exam.get("findings").findValuesAsText("code");
    }

    private static String verdict(JsonNode exam, int part) {
        JsonNode verdict = exam.get("parts").get(part).get("verdict");
        return verdict.get("value").asText() + ": " + verdict.get("causes");
    }

    @Test
    void skullInAShearedAndIrregularHeadIsMeasuredAndItsHostDoubted() throws Exception {
        JsonNode exam = measured(CaseFiles.path("A_series/ge_tilt_varspacing"), DENSE_HU);
        assertTrue(
                codes(exam).containsAll(List.of("SHEARED", "IRREGULAR", "NO_DATE")),
                codes(exam).toString());
        JsonNode outer = exam.get("parts").get(0).get("contact").get("byThreshold");
        // The outer table faces scalp and air: no bone to touch, so no fraction.
        assertTrue(verdict(exam, 0).startsWith("reader only: [\"no bone opposite the face: -"), verdict(exam, 0));
        assertTrue(outer.get("fraction").isNull());
        assertTrue(outer.get("bounds").isNull());
        assertTrue(outer.get("plateauHu").doubleValue() >= DENSE_HU);
        // The inner table faces brain, which reads over fluid as faint bone would: said, and no state is answered.
        assertTrue(verdict(exam, 1).startsWith("change only: [\"host bone reads "), verdict(exam, 1));
        assertTrue(verdict(exam, 1).contains("look whether it is bone"), verdict(exam, 1));
    }

    @Test
    void bonePlateOfThreeSlicesIsTooThinForAThreshold() throws Exception {
        JsonNode exam = measured(CaseFiles.path("A_series/dcmqi_ct3"), DENSE_HU);
        for (int part = 0; part < 2; part++) {
            assertEquals(
                    "not answerable: [\"implant or its porous layer too thin to be read under the face, by fit only\"]",
                    verdict(exam, part));
            JsonNode contact = exam.get("parts").get(part).get("contact").get("byThreshold");
            assertTrue(contact.get("fraction").isNull());
            assertEquals(1, contact.get("notAssessable").doubleValue(), 0);
        }
    }

    @Test
    void stackOfTwoSlicesShowsNoFaceInFull() throws Exception {
        JsonNode exam = measured(CaseFiles.path("A_series/philips_mixed_folder"), DENSE_HU / 2);
        assertTrue(
                codes(exam).contains("SEVERAL_MEASURABLE_STACKS"), codes(exam).toString());
        assertTrue(verdict(exam, 0).startsWith("not answerable: "), verdict(exam, 0));
        JsonNode contact = exam.get("parts").get(0).get("contact").get("byThreshold");
        assertTrue(contact.get("fraction").isNull());
        assertTrue(
                contact.get("notAssessableCauses").has("OUTSIDE_IMAGE"),
                contact.get("notAssessableCauses").toString());
    }

    @Test
    void nothingInThatFolderIsAsDenseAsAnImplant() throws Exception {
        Stack stack = stack(CaseFiles.path("A_series/philips_mixed_folder"));
        assertNull(DenseBone.find(VolumeLoader.load(stack, Progress.NONE).volume(), DENSE_HU));
    }

    @Test
    void singleSlicesAreRefusedByName() {
        for (String file : List.of("CT-MONO2-16-ort.dcm", "GH1308.dcm")) {
            Path exam = CaseFiles.path("B_ct_single/" + file);
            assertEquals(
                    "holdfast: No exam could be read. " + exam + ": nothing here can be measured: a single slice",
                    refusal(exam));
        }
    }

    @Test
    void aScoutAloneIsRefusedAsOne() {
        Path scout = CaseFiles.path("A_series/philips_mixed_folder").resolve("S1000_I10");
        assertTrue(refusal(scout).contains("a localizer is a projection, not a slice"), refusal(scout));
    }

    private static String refusal(Path exam) {
        CapturedTerminal terminal = new CapturedTerminal();
        int code = terminal.run(
                CapturedTerminal::commands,
                "contact",
                "--construct",
                SampleSubject.constructFile().toString(),
                "--exam",
                exam.toString());
        assertEquals(ExitCode.NOT_POSSIBLE, code);
        assertEquals("", terminal.result());
        return terminal.messages().strip().replaceAll("(?s).*\\R", "");
    }
}
