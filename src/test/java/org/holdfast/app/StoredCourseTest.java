package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleSubject;
import org.holdfast.measure.InterfaceExam;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Reading back what {@link CourseFiles} wrote, whole, mixed and damaged. */
class StoredCourseTest {

    @TempDir
    Path folder;

    private Path contact() {
        return folder.resolve("results").resolve("contact.json");
    }

    private Path samples() {
        return folder.resolve("results").resolve("samples.json");
    }

    private static ContactReport report(int... exams) {
        ContactReport all = SampleSubject.report();
        List<ExamResult> some = Arrays.stream(exams).mapToObj(all.exams()::get).toList();
        return new ContactReport(all.construct(), all.settings(), some, all.findings());
    }

    private static void write(ContactReport report, Path folder) throws UseCaseException {
        new CourseFiles(report, SimulationTruth.NONE).write(folder);
    }

    /** The samples' document with another hash, so that what is wrong inside is looked at. */
    private void renewHash() throws Exception {
        String text = Files.readString(samples());
        Files.writeString(
                samples(),
                text.replaceAll(
                        "\"contactSha256\":\"[0-9a-f]+\"",
                        "\"contactSha256\":\"" + StoredCourse.sha256(contact()) + "\""));
    }

    private String refused() {
        return assertThrows(UseCaseException.class, () -> StoredCourse.read(folder))
                .getMessage();
    }

    @Test
    void isWhatWasWrittenReadingsIncluded() throws Exception {
        ContactReport written = SampleSubject.report();
        write(written, folder);
        ContactReport read = StoredCourse.read(folder).orElseThrow();
        for (int n = 0; n < written.exams().size(); n++) {
            ExamResult then = written.exams().get(n);
            ExamResult now = read.exams().get(n);
            for (int face = 0; face < then.parts().size(); face++) {
                InterfaceExam before = then.parts().get(face);
                InterfaceExam after = now.parts().get(face);
                assertEquals(before.key(), after.key());
                assertEquals(before.verdict(), after.verdict());
                assertEquals(
                        before.contact().orElseThrow().readings(),
                        after.contact().orElseThrow().readings());
                assertEquals(before.contact(), after.contact());
            }
            assertEquals(then.comparability(), now.comparability());
            assertEquals(then.findings(), now.findings());
            assertEquals(then.referenceToExam(), now.referenceToExam());
        }
        assertEquals(written.settings(), read.settings());
        assertEquals(written.construct().geometrySha256(), read.construct().geometrySha256());
        assertEquals(written, read);
    }

    @Test
    void isEmptyWhereNothingWasMeasured() throws Exception {
        assertEquals(Optional.empty(), StoredCourse.read(folder));
        write(report(0), folder);
        Files.delete(samples());
        assertEquals(Optional.empty(), StoredCourse.read(folder));
    }

    @Test
    void refusesFilesOfTwoRuns() throws Exception {
        write(report(0, 1), folder);
        byte[] other = Files.readAllBytes(samples());
        write(report(0, 2), folder);
        Files.write(samples(), other);
        String message = refused();
        assertTrue(message.startsWith(samples() + ": contactSha256: expected "), message);
        assertTrue(message.endsWith("; the two files are not of one run"), message);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.2, 0.5, 0.9, 0.999})
    void namesATruncatedReportDocument(double share) throws Exception {
        write(report(0), folder);
        truncate(contact(), share);
        String message = refused();
        assertTrue(message.startsWith(contact() + ": not JSON: "), message);
        assertTrue(message.contains("line"), message);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.2, 0.5, 0.9, 0.999})
    void namesATruncatedSamplesDocument(double share) throws Exception {
        write(report(0), folder);
        truncate(samples(), share);
        String message = refused();
        assertTrue(message.startsWith(samples() + ": not JSON: "), message);
    }

    @Test
    void saysThatAnEmptyFileHoldsNothing() throws Exception {
        write(report(0), folder);
        Files.writeString(contact(), "");
        assertEquals(contact() + ".formatVersion: expected a whole number, found nothing", refused());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"formatVersion\" : 1 | \"formatVersion\" : 2 | .formatVersion: expected 1, found 2",
                "\"kind\" : \"identity\" | \"kind\" : \"guessed\" | .exams[0].pose.kind: expected one of",
                "\"reference\" : true | \"reference\" : \"yes\" | .exams[0].reference: expected true or false, found \"yes\"",
                "\"areaMm2\" : | \"areaMm\" : | .areaMm2: expected a number, found nothing",
                "\"id\" : \"cranial-face\" | \"id\" : \"no-face\" | .exams[0].parts[0].id: expected",
            })
    void namesPlaceExpectedAndFound(String right, String wrong, String message) throws Exception {
        write(report(0), folder);
        String text = Files.readString(contact());
        assertTrue(text.contains(right), right);
        Files.writeString(contact(), text.replace(right, wrong));
        renewHash();
        String refused = refused();
        assertTrue(refused.contains(message), refused);
        assertTrue(refused.contains(".json"), refused);
    }

    @Test
    void refusesAPointSpreadThatCannotBe() throws Exception {
        write(report(0), folder);
        String text = Files.readString(contact());
        Files.writeString(contact(), text.replaceAll("\"sigmaInPlaneMm\" : [0-9.]+", "\"sigmaInPlaneMm\" : -1.0"));
        renewHash();
        String refused = refused();
        assertTrue(refused.startsWith(contact() + ".exams[0].pointSpread: "), refused);
    }

    @Test
    void refusesAMissingSample() throws Exception {
        write(report(0), folder);
        String text = Files.readString(samples());
        Files.writeString(samples(), text.replaceFirst("\"samples\":\\[\\[[^\\]]*\\],", "\"samples\":["));
        String refused = refused();
        assertTrue(refused.startsWith(samples() + ".exams[0].parts[0].byThreshold.samples: expected "), refused);
    }

    private static void truncate(Path file, double share) throws Exception {
        byte[] all = Files.readAllBytes(file);
        Files.write(file, Arrays.copyOf(all, (int) (all.length * share)));
    }
}
