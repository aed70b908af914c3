package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The main job on the small demo subject, made once for all tests. */
class DemoCourseCommandTest {

    @TempDir
    static Path folder;

    private static CapturedTerminal first;
    private static TestWindow noDisplay;

    /** A course takes a while to measure: one run makes it where there is no display, one measures it again. */
    @BeforeAll
    static void make() {
        first = new CapturedTerminal();
        noDisplay = new TestWindow(false);
        assertEquals(ExitCode.DONE, run(first, noDisplay), first.messages());
    }

    private static int run(CapturedTerminal terminal, TestWindow window) {
        return terminal.run(
                each -> CommandList.all(each, window), "demo", "course", folder.toString(), "--small", "--open");
    }

    @Test
    void writesTableChartMapsAndResult() throws Exception {
        List<String> csv = Files.readAllLines(folder.resolve("course.csv"));
        // A header, and five exams of two interfaces.
        assertEquals(11, csv.size());
        assertTrue(csv.get(0).startsWith("exam,daysSinceSurgery,"), csv.get(0));
        byte[] png = Files.readAllBytes(folder.resolve("course.png"));
        // Source: PNG specification (W3C), section 5.2: the signature.
        assertArrayEquals(
                new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10}, Arrays.copyOf(png, 8), "PNG signature");
        assertTrue(Files.readString(folder.resolve("course.svg")).contains("<svg"));
        assertEquals(
                5,
                new ObjectMapper()
                        .readTree(folder.resolve("results/measure.json").toFile())
                        .get("exams")
                        .size());
        try (Stream<Path> maps = Files.list(folder.resolve("results/maps"))) {
            // By hand: two interfaces in five exams, by threshold and by fit.
            assertEquals(20, maps.filter(map -> map.toString().endsWith(".png")).count());
        }
    }

    @Test
    void printsTheTableWithTheTruthBesideIt() {
        assertTrue(first.result().contains("truth:"), first.result());
        assertTrue(first.result().contains("Written: " + folder.resolve("course.csv")), first.result());
        assertTrue(first.result().contains("not a medical device"));
    }

    @Test
    void measuresAgainWithoutMakingAgainAndOpensTheWindow() throws Exception {
        Path image = folder.resolve("exam-1-surgery/slice-0001.dcm");
        FileTime made = Files.getLastModifiedTime(image);
        byte[] result = Files.readAllBytes(folder.resolve("results/measure.json"));
        CapturedTerminal second = new CapturedTerminal();
        TestWindow window = new TestWindow();
        assertEquals(ExitCode.DONE, run(second, window), second.messages());
        assertEquals(made, Files.getLastModifiedTime(image));
        assertEquals(first.result(), second.result());
        assertArrayEquals(result, Files.readAllBytes(folder.resolve("results/measure.json")));
        assertEquals(List.of(Optional.of(folder)), window.opened());
    }

    @Test
    void saysHowToOpenTheWindowWhereThereIsNoDisplay() {
        assertEquals(List.of(), noDisplay.opened());
        assertTrue(
                first.messages()
                        .contains("There is no display; where there is one, \"holdfast open " + folder
                                + "\" opens the window."),
                first.messages());
    }

    @Test
    void refusesAFolderThatHoldsSomethingElse(@TempDir Path other) throws Exception {
        Files.writeString(other.resolve("kept.txt"), "kept");
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.NOT_POSSIBLE,
                terminal.run(CapturedTerminal::commands, "demo", "course", other.toString(), "--small"));
        assertTrue(terminal.messages().contains("is not empty"), terminal.messages());
    }
}
