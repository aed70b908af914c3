package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.holdfast.construct.ConstructJson;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo subject's folder, and the copy of it that is kept with the sources. */
class DemoSubjectTest {

    private static final Path SAMPLES = Path.of("sample-images");

    @TempDir
    static Path folder;

    private static DemoSubject.Made made;

    @BeforeAll
    static void make() throws IOException {
        made = DemoSubject.write(folder.resolve("small"), DemoSubject.Size.SMALL, Progress.NONE);
    }

    @Test
    void folderHasTheFormOfASubject() throws Exception {
        JsonNode subject = new ObjectMapper()
                .readTree(made.folder().resolve("subject.json").toFile());
        assertEquals("DEMO-01", subject.get("code").asText());
        assertEquals(5, subject.get("exams").size());
        ConstructJson.read(made.folder().resolve(subject.get("construct").asText()));
        for (JsonNode exam : subject.get("exams")) {
            Path images = made.folder().resolve(exam.get("folder").asText());
            try (Stream<Path> files = Files.list(images)) {
                assertEquals(160, files.count(), exam.get("label").asText());
            }
        }
    }

    @Test
    void posesAreReadAsGivenPoses() throws Exception {
        PoseFile poses = PoseFile.read(made.folder().resolve("truth.json"));
        assertEquals("truth of the simulation", poses.source());
        assertEquals(5, poses.byExam().size());
    }

    @Test
    void truthSaysThatItIsOne() throws Exception {
        JsonNode truth = new ObjectMapper().readTree(made.truthJson());
        assertEquals(Caution.TEXT, truth.get("caution").asText());
        assertTrue(truth.get("note").asText().startsWith("Simulation truth"));
        assertEquals(made.truthJson(), Files.readString(made.folder().resolve("truth.json")));
    }

    @Test
    void samplesKeptWithTheSourcesAreWhatTheCommandMakes() throws Exception {
        for (String name : List.of("subject.json", "construct.json", "truth.json")) {
            assertEquals(
                    Files.readString(made.folder().resolve(name)),
                    Files.readString(SAMPLES.resolve("demo-subject").resolve(name)),
                    name);
        }
        for (DemoSubject.ExamLine exam : made.exams()) {
            Path slice = Path.of(exam.folder(), "slice-0080.dcm");
            assertArrayEquals(
                    Files.readAllBytes(made.folder().resolve(slice)),
                    Files.readAllBytes(SAMPLES.resolve("demo-subject").resolve(slice)),
                    slice.toString());
        }
    }

    @Test
    void readmeOfSamplesHasTheTruth() throws Exception {
        String readme = Files.readString(SAMPLES.resolve("README.md"));
        assertTrue(readme.contains(Caution.TEXT));
        for (DemoSubject.ExamLine exam : made.exams()) {
            String row = String.format(
                    Locale.ROOT,
                    "| %s | %.1f %% | %.1f to %.1f | %.1f | %.1f | %s |",
                    exam.label(),
                    100 * exam.cranialContact(),
                    exam.caudalNarrowestMm(),
                    exam.caudalWidestMm(),
                    exam.widestZoneMm(),
                    exam.sunkMm(),
                    exam.broken().isEmpty() ? "none" : String.join(", ", exam.broken()));
            assertTrue(readme.contains(row), row);
        }
    }

    @Test
    void samplesStaySmall() throws Exception {
        try (Stream<Path> files = Files.walk(SAMPLES)) {
            long bytes = files.filter(Files::isRegularFile)
                    .mapToLong(file -> file.toFile().length())
                    .sum();
            assertTrue(bytes <= 25_000_000, "sample-images holds " + bytes + " bytes");
        }
    }

    @Test
    void refusesFolderThatHoldsSomething() {
        assertThrows(
                DirectoryNotEmptyException.class,
                () -> DemoSubject.write(made.folder(), DemoSubject.Size.SMALL, Progress.NONE));
    }

    @Test
    void unfinishedFolderIsNoSubject() {
        Path stopped = folder.resolve("stopped");
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> DemoSubject.write(stopped, DemoSubject.Size.SMALL, cancelled));
        assertFalse(Files.exists(stopped.resolve("subject.json")));
    }
}
