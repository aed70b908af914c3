package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.app.ContactReport;
import org.holdfast.app.CourseFiles;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SimulationTruth;
import org.holdfast.cases.MemoryExams;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.holdfast.measure.SettingsJson;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CourseResultsTest {

    private static final String FACE = "cranial-face";

    @TempDir
    Path folder;

    private final SameThreadRunner runner = SameThreadRunner.held();
    private final MemoryExams exams = new MemoryExams();

    @BeforeEach
    void bringTheDocuments() throws IOException {
        for (String document : List.of("subject.json", "construct.json", "truth.json")) {
            Files.copy(SampleSubject.folder().resolve(document), folder.resolve(document));
        }
    }

    /** The images of one exam, whose name in the document leads to them from now on. */
    private void bringTheFirstExam() throws IOException {
        Path images = Files.createDirectory(folder.resolve("exam-1-surgery"));
        try (Stream<Path> all = Files.list(SampleSubject.folder().resolve("exam-1-surgery"))) {
            for (Path file : (Iterable<Path>) all::iterator) {
                Files.copy(file, images.resolve(file.getFileName().toString()));
            }
        }
    }

    private void store() throws Exception {
        ContactReport report = SampleSubject.report();
        new CourseFiles(report, SimulationTruth.NONE).write(folder);
        for (int n = 0; n < report.exams().size(); n++) {
            exams.hash(n, report.exams().get(n).seriesSha256());
        }
    }

    private ReviewSubject subject() throws Exception {
        return ReviewSubject.open(folder);
    }

    private CourseResults started() throws Exception {
        CourseResults results = new CourseResults(subject(), exams, runner);
        results.start();
        assertInstanceOf(Status.Reading.class, known(results).status());
        return results;
    }

    private static Known known(CourseResults results) {
        return results.knownProperty().get();
    }

    private void all() {
        while (runner.next()) {
            Thread.onSpinWait();
        }
    }

    @Test
    void readsBackWhatWasMeasured() throws Exception {
        store();
        CourseResults results = started();
        assertTrue(known(results).isMeasuring());
        all();
        assertEquals(Optional.of(SampleSubject.report()), known(results).report());
        assertInstanceOf(Status.Idle.class, known(results).status());
        assertEquals(Optional.empty(), known(results).staleness("3 mo", FACE));
        assertEquals(SampleSubject.report().of("3 mo", FACE), known(results).of("3 mo", FACE));
        assertEquals(Optional.empty(), known(results).of("no such exam", FACE));
    }

    @Test
    void saysWhichNumbersNoLongerBelongToTheirInputs() throws Exception {
        store();
        exams.hash(1, "another");
        CourseResults results = started();
        assertTrue(runner.next());
        assertEquals(Optional.empty(), known(results).staleness("3 mo", FACE), "not compared yet");
        all();
        assertTrue(known(results).staleness("3 mo", FACE).isPresent());
        assertEquals(Optional.empty(), known(results).staleness("6 mo", FACE));
        assertTrue(known(results).of("3 mo", FACE).isPresent(), "the number stays");
    }

    @Test
    void measuresWhereNothingWasMeasured() throws Exception {
        bringTheFirstExam();
        CourseResults results = started();
        assertTrue(runner.next());
        assertInstanceOf(Status.Measuring.class, known(results).status());
        all();
        assertInstanceOf(Status.Idle.class, known(results).status());
        ContactReport report = known(results).report().orElseThrow();
        assertEquals(1, report.exams().size(), "the others are not there");
        assertEquals(
                SampleSubject.report().of("surgery", FACE).orElseThrow().contact(),
                report.of("surgery", FACE).orElseThrow().contact());
        assertTrue(Files.exists(folder.resolve("results").resolve("measure.json")));
    }

    @Test
    void saysThatResultsAreDamagedAndLeavesThem() throws Exception {
        store();
        Path contact = folder.resolve("results").resolve("measure.json");
        Files.writeString(contact, "{");
        CourseResults results = started();
        assertTrue(runner.next());
        Status.Failed failed =
                assertInstanceOf(Status.Failed.class, known(results).status());
        assertTrue(failed.reason().contains(contact.toString()), failed::reason);
        assertEquals("{", Files.readString(contact));
    }

    @Test
    void saysWhyItCouldNotMeasure() throws Exception {
        CourseResults results = started();
        all();
        Status.Failed failed =
                assertInstanceOf(Status.Failed.class, known(results).status());
        assertTrue(failed.reason().contains("exam-1-surgery"), failed::reason);
        assertFalse(known(results).isMeasuring());
        assertEquals(Optional.empty(), known(results).report());
    }

    @Test
    void stopsMeasuringAndKeepsEarlierNumbers() throws Exception {
        store();
        CourseResults results = started();
        all();
        results.measureAgain();
        assertInstanceOf(Status.Measuring.class, known(results).status());
        assertTrue(known(results).report().isPresent(), "shown while they are measured anew");
        results.stop();
        all();
        assertInstanceOf(Status.Stopped.class, known(results).status());
        assertEquals(Optional.of(SampleSubject.report()), known(results).report());
    }

    @Test
    void doesNotMeasureWhenStoppedWhileReading() throws Exception {
        store();
        CourseResults results = started();
        results.stop();
        all();
        assertInstanceOf(Status.Stopped.class, known(results).status());
        assertFalse(known(results).isMeasuring());
    }

    @Test
    void measuresAnewWhileEarlierResultsAreStillCompared() throws Exception {
        store();
        CourseResults results = started();
        assertTrue(runner.next());
        results.measureAgain();
        assertTrue(runner.next());
        assertInstanceOf(Status.Measuring.class, known(results).status());
    }

    @Test
    void showsOlderNumbersAsMeasuredWithTheirSettings() throws Exception {
        store();
        CourseResults results = new CourseResults(
                subject().with(SettingsJson.parse("{\"sampleSpacingMm\": 0.75}", "test")), exams, runner);
        results.start();
        all();
        String why = known(results).staleness("24 mo", FACE).orElseThrow();
        assertTrue(why.contains("sampleSpacingMm 0.5, now 0.75"), why);
    }
}
