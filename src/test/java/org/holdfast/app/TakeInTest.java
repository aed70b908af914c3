package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.app.TakeInQuestion.About;
import org.holdfast.cases.SampleSubject;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Exams of the sample subject are taken in anew: copied, or referred to. */
final class TakeInTest {

    /** Stops when files are being written. */
    private static final class StopsWhileCopying implements Progress {
        private boolean copies;

        @Override
        public void report(double fraction, String activity) {
            copies |= activity.startsWith("copying");
        }

        @Override
        public boolean isCancelled() {
            return copies;
        }
    }

    // Source: sample-images/demo-subject/subject.json
    private static final LocalDate SURGERY = LocalDate.of(2024, 3, 11);

    @TempDir
    private Path home;

    private final String usualHome = System.getProperty("user.home");
    private IntakeSession session;

    @BeforeEach
    void readTwoExams() {
        System.setProperty("user.home", home.toString());
        session = IntakeSession.read(List.of(exam(0), exam(2)), Progress.NONE);
    }

    @AfterEach
    void giveTheHomeBack() {
        session.close();
        System.setProperty("user.home", usualHome);
    }

    private static Path exam(int n) {
        return SampleSubject.exams().get(n).folder();
    }

    private IntakePatient patient() {
        return session.content().patients().get(0);
    }

    private TakeInPlan plan(String code, Way way) {
        return TakeInPlan.undecided(session.target(home.resolve(code)))
                .withCode(code)
                .withOperation(Optional.of(SURGERY))
                .withWay(way);
    }

    @Test
    void asksForCodeAndOperationAndNothingElseOfDatedExams() {
        List<TakeInQuestion> open =
                TakeInQuestions.of(patient(), TakeInPlan.undecided(session.target(home.resolve("S-1"))));
        assertEquals(
                List.of(About.CODE, About.SURGERY),
                open.stream().map(TakeInQuestion::about).toList());
        assertEquals(List.of(), TakeInQuestions.of(patient(), plan("S-1", Way.COPY)));
    }

    @Test
    void copiesKeepIntervalsAndNoDay() throws Exception {
        TakenIn result = session.takeIn(patient(), plan("S-1", Way.COPY), Progress.NONE);
        assertEquals(2, result.exams());
        assertFalse(result.hasConstruct());
        SubjectFolder subject = SubjectFolder.read(home.resolve("S-1"));
        assertEquals("S-1", subject.code());
        assertFalse(subject.surgeryDate().equals(SURGERY));
        for (int n = 0; n < 2; n++) {
            IntakeExam exam = patient().exams().get(n);
            SubjectFolder.Exam written = subject.exams().get(n);
            assertEquals(
                    ExamLabel.daysSince(SURGERY, exam.date().orElseThrow()),
                    ExamLabel.daysSince(subject.surgeryDate(), written.date().orElseThrow()));
            SubjectFolder.ExamSeries series = written.measured().orElseThrow();
            DataSet header = DicomReader.read(firstFile(series.folder())).dataSet();
            assertEquals(
                    series.seriesUid(), header.string(Tag.SERIES_INSTANCE_UID).orElseThrow());
            assertEquals("S-1", header.string(Tag.PATIENT_ID).orElseThrow());
            assertFalse(series.seriesUid().equals(exam.series().get(0).seriesUid()));
        }
    }

    @Test
    void nothingIsTakenTwice() throws Exception {
        session.takeIn(patient(), plan("S-1", Way.COPY), Progress.NONE);
        TakeInPlan again = plan("S-1", Way.COPY);
        assertEquals(SURGERY, again.surgery().orElseThrow(), "the real day is found again by the secret");
        List<TakeInQuestion> open = TakeInQuestions.of(patient(), again);
        assertEquals(
                List.of("this subject has all of it already"),
                open.stream().map(TakeInQuestion::text).toList());
    }

    @Test
    void whatIsReferredToStaysAndOpensWithItsConstruct() throws Exception {
        Path folder = Files.createDirectories(home.resolve("S-2"));
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        TakenIn result = session.takeIn(patient(), plan("S-2", Way.REFER), Progress.NONE);
        assertTrue(result.hasConstruct());
        assertEquals(0, result.files());
        ReviewSubject opened = ReviewSubject.open(folder);
        assertEquals(SURGERY, opened.folder().surgeryDate());
        assertEquals(exam(0).toAbsolutePath().normalize(), opened.exams().get(0).folder());
        assertEquals(
                Optional.of(patient().exams().get(0).series().get(0).seriesUid()),
                opened.exams().get(0).seriesUid());
    }

    @Test
    void examsAreAddedToASubjectThatIsThere() throws Exception {
        IntakeExam later = patient().exams().get(1);
        session.takeIn(patient(), plan("S-3", Way.COPY).without(later), Progress.NONE);
        TakenIn added = session.takeIn(patient(), plan("S-3", Way.COPY), Progress.NONE);
        assertEquals(1, added.exams());
        SubjectFolder subject = SubjectFolder.read(home.resolve("S-3"));
        assertEquals(
                List.of("surgery", "6 mo"),
                subject.exams().stream().map(SubjectFolder.Exam::label).toList());
    }

    @Test
    void aStoppedTakingInLeavesNothing() {
        assertThrows(
                CancellationException.class,
                () -> session.takeIn(patient(), plan("S-4", Way.COPY), new StopsWhileCopying()));
        assertFalse(Files.exists(home.resolve("S-4")));
    }

    @Test
    void datesOfAnotherSecretAreRefused() throws Exception {
        session.takeIn(patient(), plan("S-5", Way.COPY), Progress.NONE);
        Files.write(Deidentification.usualKey(), new byte[32]);
        TakeInTarget target = session.target(home.resolve("S-5"));
        assertTrue(target.why().orElseThrow().contains("another secret key"), target.why()::orElseThrow);
    }

    private static Path firstFile(Path folder) throws Exception {
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted().findFirst().orElseThrow();
        }
    }
}
