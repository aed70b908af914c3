package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdfast.app.Caution;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The inspect command: its document, its words, its exit codes. */
class InspectCommandTest {

    @TempDir
    Path folder;

    @Test
    void anEmptyNameIsWrongUseAndAnEmptyFolderHasNothing() {
        CapturedTerminal empty = new CapturedTerminal();
        assertEquals(ExitCode.WRONG_USE, empty.run(CapturedTerminal::commands, "inspect", ""));
        CapturedTerminal nothing = new CapturedTerminal();
        assertEquals(ExitCode.NOT_POSSIBLE, nothing.run(CapturedTerminal::commands, "inspect", folder.toString()));
        assertTrue(nothing.messages().contains("no DICOM images"), nothing.messages());
    }

    @Test
    void documentHasTheFieldsOfTheFormat() throws Exception {
        writeTwoSlices();
        Files.writeString(folder.resolve("notes.txt"), "not an image");
        CapturedTerminal terminal = new CapturedTerminal();
        int code = terminal.run(CapturedTerminal::commands, "inspect", "--json", "--files", folder.toString());
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        assertEquals(Caution.TEXT, document.get("caution").asText());
        assertEquals(1, document.get("formatVersion").asInt());
        assertEquals(1, document.get("unreadable").size());
        JsonNode series = document.get("series").get(0);
        assertEquals(
                List.of(
                        "seriesInstanceUid",
                        "studyInstanceUid",
                        "patient",
                        "modality",
                        "description",
                        "kind",
                        "date",
                        "dateWhy",
                        "dateSource",
                        "dateSourceWhy",
                        "acquisition",
                        "stacks",
                        "findings",
                        "files"),
                names(series));
        assertEquals("volume", series.get("kind").asText());
        JsonNode stack = series.get("stacks").get(0);
        assertEquals(
                List.of(
                        "number",
                        "acquisition",
                        "rows",
                        "columns",
                        "slices",
                        "pixelSpacingMm",
                        "pitchMm",
                        "positionsMm",
                        "shearDeg",
                        "irregular",
                        "holes",
                        "rowDirection",
                        "columnDirection",
                        "firstPositionMm",
                        "lastPositionMm",
                        "firstToLastSamePixelMm",
                        "hu"),
                names(stack));
        // By hand: rows 0.7 mm and columns 0.5 mm apart; slices at 3 and 5 mm; stored 1024 and 1124 minus 1024.
        assertEquals("[0.7,0.5]", stack.get("pixelSpacingMm").toString());
        assertEquals("[3.0,5.0]", stack.get("positionsMm").toString());
        assertEquals(2, stack.get("firstToLastSamePixelMm").asDouble());
        assertEquals(50, stack.get("hu").get("mean").asDouble());
        assertTrue(stack.get("hu").get("ceiling").isNull());
        assertFalse(stack.get("hu").get("ceilingWhy").asText().isEmpty());
        JsonNode file = series.get("files").get(0);
        assertEquals(
                List.of(
                        "path",
                        "transferSyntax",
                        "transferSyntaxName",
                        "frames",
                        "bits",
                        "samples",
                        "photometric",
                        "storedMin",
                        "storedMax",
                        "storedMean",
                        "lossy",
                        "loss",
                        "lossWhy",
                        "scale"),
                names(file));
        assertEquals(
                List.of("code", "severity", "text", "where"),
                names(series.get("findings").get(0)));
    }

    @Test
    void documentSaysTheExamsAndWhyEachSeriesIsUsedAsItIs() throws Exception {
        writeTwoSlices();
        CapturedTerminal terminal = new CapturedTerminal();
        terminal.run(CapturedTerminal::commands, "inspect", "--json", folder.toString());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        JsonNode exam = document.get("exams").get(0);
        assertEquals(
                List.of("patient", "date", "dateWhy", "dateSource", "dateSourceWhy", "series", "findings"),
                names(exam));
        assertTrue(exam.get("date").isNull());
        assertEquals(
                "EXAM_DATE_MISSING", exam.get("findings").get(0).get("code").asText());
        JsonNode use = exam.get("series").get(0);
        assertEquals(
                List.of("seriesInstanceUid", "stack", "name", "description", "kind", "images", "role", "reasons"),
                names(use));
        assertEquals(1, use.get("stack").asInt());
        assertEquals("measure", use.get("role").asText());
        assertEquals(
                "only 2 slices: too few to show an interface",
                use.get("reasons").get(0).asText());
    }

    @Test
    void whatIsNotSaidIsNullWithItsReason() throws Exception {
        writeTwoSlices();
        CapturedTerminal terminal = new CapturedTerminal();
        terminal.run(CapturedTerminal::commands, "inspect", "--json", "--files", folder.toString());
        List<String> bare = new ArrayList<>();
        withoutReason(new ObjectMapper().readTree(terminal.result()), "", bare);
        // By hand: those that the document's first version has without a reason of their own beside them.
        assertEquals(
                List.of(),
                bare.stream().filter(name -> !name.endsWith("/dateSource")).toList());
    }

    /** Fields that are null and have no sibling that says why. */
    private static void withoutReason(JsonNode node, String place, List<String> out) {
        for (String name : names(node)) {
            if (node.get(name).isNull() && !node.has(name + "Why")) {
                out.add(place + "/" + name);
            }
            withoutReason(node.get(name), place + "/" + name, out);
        }
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            withoutReason(node.get(i), place, out);
        }
    }

    @Test
    void wordsStartWithTheExamsAndFitTheLine() throws Exception {
        writeTwoSlices();
        CapturedTerminal terminal = new CapturedTerminal();
        terminal.run(CapturedTerminal::commands, "inspect", folder.toString());
        List<String> lines = terminal.result().lines().toList();
        assertEquals(
                "Exam without a date, patient 1 (no file says the day of the scan: it must be given)", lines.get(0));
        assertEquals("  Measure on: CT slices, 2 slices", lines.get(1));
        assertTrue(lines.get(2).endsWith(", stack 1"), lines.get(2));
        assertEquals("    - only 2 slices: too few to show an interface", lines.get(3), terminal.result());
        lines.stream()
                .filter(line -> line.trim().contains(" "))
                .forEach(line -> assertTrue(line.length() <= 100, line));
    }

    @Test
    void wordsSayTheSameAndEndWithTheCaution() throws Exception {
        writeTwoSlices();
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(ExitCode.DONE, terminal.run(CapturedTerminal::commands, "inspect", folder.toString()));
        assertTrue(
                terminal.result().contains("Stack of 2 slices, 2 rows × 2 columns, pixels 0.7000 × 0.5000 mm"),
                terminal.result());
        assertTrue(terminal.result().contains("HU 0 to 100, mean 50.0000 over 8 of 8 voxels; not clipped"));
        assertTrue(terminal.result().contains("not a medical device"));
    }

    @Test
    void nothingReadableIsExitCodeOne() throws Exception {
        Files.writeString(folder.resolve("notes.txt"), "not an image");
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.NOT_POSSIBLE,
                terminal.run(CapturedTerminal::commands, "inspect", "--json", folder.toString()));
        assertEquals(
                1,
                new ObjectMapper().readTree(terminal.result()).get("unreadable").size());
    }

    @Test
    void noPathIsWrongUse() {
        assertEquals(ExitCode.WRONG_USE, new CapturedTerminal().run(CapturedTerminal::commands, "inspect"));
    }

    private void writeTwoSlices() throws Exception {
        for (int k = 0; k < 2; k++) {
            short value = (short) (1024 + 100 * k);
            DataSet slice = DataSet.builder()
                    .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                    .string(Tag.SOP_INSTANCE_UID, Uid.fromName("inspect " + k))
                    .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("inspect"))
                    .string(Tag.MODALITY, "CT")
                    .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, 3 + 2 * k)
                    .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                    .decimals(Tag.PIXEL_SPACING, 0.7, 0.5)
                    .integers(Tag.SAMPLES_PER_PIXEL, 1)
                    .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                    .integers(Tag.ROWS, 2)
                    .integers(Tag.COLUMNS, 2)
                    .integers(Tag.BITS_ALLOCATED, 16)
                    .integers(Tag.PIXEL_REPRESENTATION, 1)
                    .decimals(Tag.RESCALE_SLOPE, 1)
                    .decimals(Tag.RESCALE_INTERCEPT, -1024)
                    .words(Tag.PIXEL_DATA, new short[] {value, value, value, value})
                    .build();
            DicomWriter.write(folder.resolve("slice" + k), slice, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        }
    }

    private static List<String> names(JsonNode node) {
        List<String> names = new ArrayList<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }
}
