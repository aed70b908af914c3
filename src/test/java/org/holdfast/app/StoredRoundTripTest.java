package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is written of a course is read back as it was, or refused. */
final class StoredRoundTripTest {

    @TempDir
    Path folder;

    @BeforeEach
    void write() throws Exception {
        new CourseFiles(SampleSubject.report(), SimulationTruth.NONE).write(folder);
    }

    private Path samples() {
        return folder.resolve("results").resolve(StoredCourse.SAMPLES);
    }

    @Test
    void everyRecordComesBackEqual() throws Exception {
        ContactReport read = StoredCourse.read(folder).orElseThrow();
        assertEquals(SampleSubject.report(), read);
        assertFalse(read.exams()
                .get(4)
                .parts()
                .get(1)
                .contact()
                .orElseThrow()
                .readings()
                .isEmpty());
    }

    @Test
    void aFolderWithoutResultsHasNone(@TempDir Path other) throws Exception {
        assertEquals(Optional.empty(), StoredCourse.read(other));
    }

    @Test
    void samplesOfAnotherRunAreRefused() throws Exception {
        byte[] earlier = Files.readAllBytes(samples());
        ContactReport report = SampleSubject.report();
        ContactReport fewer = new ContactReport(
                report.construct(), report.settings(), report.exams().subList(0, 2), List.of());
        new CourseFiles(fewer, SimulationTruth.NONE).write(folder);
        Files.write(samples(), earlier);
        UseCaseException refused = assertThrows(UseCaseException.class, () -> StoredCourse.read(folder));
        assertTrue(refused.getMessage().contains("not of one run"), refused.getMessage());
    }

    @Test
    void aSampleThatContradictsItselfIsRefusedAtItsPlace() throws Exception {
        String text = Files.readString(samples());
        String contact = "[\"CONTACT\",null,";
        int at = text.indexOf(contact);
        assertTrue(at > 0);
        Files.writeString(
                samples(), text.substring(0, at) + "[\"NOT_ASSESSABLE\",null," + text.substring(at + contact.length()));
        UseCaseException refused = assertThrows(UseCaseException.class, () -> StoredCourse.read(folder));
        assertTrue(refused.getMessage().startsWith(samples() + ".exams[0].parts[0]"), refused.getMessage());
        assertTrue(refused.getMessage().contains("expected a cause exactly where"), refused.getMessage());
    }

    @Test
    void aNumberThatIsNotFiniteIsRefused() throws Exception {
        String text = Files.readString(samples());
        Files.writeString(samples(), text.replaceFirst("\"low\":[0-9.eE-]+", "\"low\":1e999"));
        UseCaseException refused = assertThrows(UseCaseException.class, () -> StoredCourse.read(folder));
        assertTrue(refused.getMessage().contains(".low: expected a number"), refused.getMessage());
    }
}
