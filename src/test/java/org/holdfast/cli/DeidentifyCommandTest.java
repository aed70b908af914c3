package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.app.Caution;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The deidentify command: its document, its words, its exit codes. */
final class DeidentifyCommandTest {

    @TempDir
    Path folder;

    private final CapturedTerminal terminal = new CapturedTerminal();

    @Test
    void writesFilesAndSaysWhatItCannotSee() throws Exception {
        writeOne();
        assertEquals(ExitCode.DONE, run("--subject", "S-001"), terminal.messages());
        assertTrue(terminal.result().contains("1 of 1 files written for subject S-001, dates shifted"));
        assertTrue(terminal.result().contains("burned into an image, and a face"));
        assertTrue(terminal.result().contains("not a medical device"));
        assertTrue(terminal.messages().contains("A new key was made"));
        assertTrue(Files.exists(folder.resolve("out/study-01/series-001/00001.dcm")));
    }

    @Test
    void documentIsTheOnlyResultAndTheOneInTheFolder() throws Exception {
        writeOne();
        Files.writeString(folder.resolve("in/notes.txt"), "not an image");
        assertEquals(ExitCode.DONE, run("--subject", "S-001", "--json", "--dates", "removed"));
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        assertEquals(Caution.TEXT, document.get("caution").asText());
        assertEquals("removed", document.get("dates").asText());
        assertEquals(1, document.get("files").get("notWritten").asInt());
        assertEquals(
                document,
                new ObjectMapper()
                        .readTree(folder.resolve("out/deidentification.json").toFile()));
        assertTrue(terminal.messages().contains("Not written: " + folder.resolve("in/notes.txt")));
        assertFalse(terminal.result().contains("notes.txt"));
        assertFalse(terminal.result().contains("Doe"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Müller", "a b", "a/b", "."})
    void otherCodesAreWrongUse(String code) throws Exception {
        writeOne();
        assertEquals(ExitCode.WRONG_USE, run("--subject", code));
        assertFalse(Files.exists(folder.resolve("out")));
    }

    @ParameterizedTest
    @CsvSource({"--dates, kept", "--unknown, x"})
    void otherOptionsAreWrongUse(String option, String value) throws Exception {
        writeOne();
        assertEquals(ExitCode.WRONG_USE, run("--subject", "S-001", option, value));
    }

    @Test
    void subjectIsRequired() throws Exception {
        writeOne();
        assertEquals(ExitCode.WRONG_USE, run());
    }

    @Test
    void nothingWrittenIsExitCodeOne() throws Exception {
        Files.createDirectories(folder.resolve("in"));
        Files.writeString(folder.resolve("in/notes.txt"), "not an image");
        assertEquals(ExitCode.NOT_POSSIBLE, run("--subject", "S-001"));
    }

    @Test
    void aMissingFolderIsExitCodeOne() {
        assertEquals(ExitCode.NOT_POSSIBLE, run("--subject", "S-001"));
        assertTrue(terminal.messages().contains("no such file or folder"), terminal.messages());
    }

    @Test
    void helpSaysWhatALostKeyMeans() {
        assertEquals(ExitCode.DONE, terminal.run(CapturedTerminal::commands, "deidentify", "--help"));
        assertTrue(terminal.result().replaceAll("\\s+", " ").contains("if it is lost, exams that come later"));
    }

    private int run(String... options) {
        String[] all = new String[options.length + 5];
        all[0] = "deidentify";
        all[1] = folder.resolve("in").toString();
        all[2] = folder.resolve("out").toString();
        all[3] = "--key";
        all[4] = folder.resolve("key").toString();
        System.arraycopy(options, 0, all, 5, options.length);
        return terminal.run(CapturedTerminal::commands, all);
    }

    private void writeOne() throws Exception {
        Files.createDirectories(folder.resolve("in"));
        DataSet image = DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("deidentify"))
                .string(Tag.PATIENT_NAME, "Doe^Jane")
                .string(Tag.MODALITY, "CT")
                .build();
        DicomWriter.write(folder.resolve("in/doe.dcm"), image, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }
}
