package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Damaged samples of a stored course are refused where they lie. */
final class StoredSampleTest {

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
