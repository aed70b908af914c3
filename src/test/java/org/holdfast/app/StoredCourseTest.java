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

    private Path measure() {
        return folder.resolve("results").resolve("measure.json");
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
        assertTrue(message.startsWith(samples() + ".measureSha256: expected "), message);
        assertTrue(message.endsWith("; the two files are not of one run"), message);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.2, 0.5, 0.9, 0.999})
    void namesATruncatedReportDocument(double share) throws Exception {
        write(report(0), folder);
        truncate(measure(), share);
        String message = refused();
        assertTrue(message.startsWith(measure() + ": not JSON: "), message);
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
        Files.writeString(measure(), "");
        assertEquals(measure() + ".formatVersion: expected a whole number, found nothing", refused());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"formatVersion\":2 | \"formatVersion\":1 | .formatVersion: expected 2, found 1",
                "\"kind\":\"IDENTITY\" | \"kind\":\"GUESSED\" | .exams[0].poses.construct.kind: expected one of",
                "\"isReference\":true | \"isReference\":\"yes\" | .exams[0].isReference: expected true or false, found \"yes\"",
                "\"areaMm2\": | \"areaMm\": | .areaMm2: expected a number, found nothing",
                "\"face\":\"cranial-face\" | \"face\":\"no-face\" | .exams[0].parts[0].face: expected",
                "\"component\":\"body-l1\" | \"component\":\"no-body\" | .component: expected a component",
            })
    void namesPlaceExpectedAndFound(String right, String wrong, String message) throws Exception {
        write(report(0), folder);
        String text = Files.readString(samples());
        assertTrue(text.contains(right), right);
        Files.writeString(samples(), text.replace(right, wrong));
        String refused = refused();
        assertTrue(refused.startsWith(samples().toString()), refused);
        assertTrue(refused.contains(message), refused);
    }

    @Test
    void refusesAPointSpreadThatCannotBe() throws Exception {
        write(report(0), folder);
        String text = Files.readString(samples());
        Files.writeString(samples(), text.replaceAll("\"sigmaInPlaneMm\":[0-9.]+", "\"sigmaInPlaneMm\":-1.0"));
        String refused = refused();
        assertTrue(refused.startsWith(samples() + ".exams[0].pointSpread: "), refused);
    }

    @Test
    void refusesAMissingSample() throws Exception {
        write(report(0), folder);
        String text = Files.readString(samples());
        Files.writeString(
                samples(),
                text.replaceFirst("(\"readings\":\\{\"columns\":\\[[^\\]]*\\],\"rows\":\\[)\\[[^\\]]*\\],", "$1"));
        String refused = refused();
        assertTrue(refused.startsWith(samples() + ".exams[0].parts[0].contact.readings.rows: expected "), refused);
    }

    @Test
    void refusesAReasonThatIsMissing() throws Exception {
        write(report(0), folder);
        String text = Files.readString(samples());
        Files.writeString(samples(), text.replaceFirst("\"changeWhy\":\"[^\"]*\"", "\"changeWhy\":\"\""));
        String refused = refused();
        assertTrue(refused.contains(".parts[0].changeWhy: expected a reason"), refused);
    }

    @Test
    void tellsOfResultsOfAnOlderVersion() throws Exception {
        Files.createDirectories(folder.resolve("results"));
        Files.writeString(folder.resolve("results").resolve("contact.json"), "{}");
        assertEquals(Optional.empty(), StoredCourse.read(folder));
        assertEquals(
                "RESULTS_OF_AN_OLDER_VERSION", StoredCourse.older(folder).get(0).code());
        write(report(0), folder);
        assertEquals(List.of(), StoredCourse.older(folder));
    }

    private static void truncate(Path file, double share) throws Exception {
        byte[] all = Files.readAllBytes(file);
        Files.write(file, Arrays.copyOf(all, (int) (all.length * share)));
    }
}
