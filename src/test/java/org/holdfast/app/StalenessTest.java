package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.holdfast.cases.MemoryExams;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Construct;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsJson;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class StalenessTest {

    private static final String CRANIAL = "cranial-face";
    private static final String CAUDAL = "caudal-face";

    private final ContactReport stored = SampleSubject.report();
    private final MeasurementSettings was = stored.settings();
    private final ReviewSubject subject = subject();
    private final MemoryExams exams = unchanged();

    private static ReviewSubject subject() {
        try {
            return ReviewSubject.open(SampleSubject.folder());
        } catch (UseCaseException e) {
            throw new AssertionError(e);
        }
    }

    private MemoryExams unchanged() {
        MemoryExams all = new MemoryExams();
        for (ReviewExam exam : subject.exams()) {
            all.hash(exam.index(), stored.exam(exam.label()).orElseThrow().seriesSha256());
        }
        return all;
    }

    private Staleness of(ReviewSubject now) {
        return Staleness.of(stored, now, exams, Progress.NONE);
    }

    private ReviewSubject with(Construct construct, List<ReviewExam> reviewed) {
        return new ReviewSubject(
                subject.folder(),
                construct,
                subject.settings(),
                subject.poses(),
                subject.truth(),
                reviewed,
                subject.findings());
    }

    private static Construct construct(Construct laidOut, int version, List<BoneInterface> faces) {
        return new Construct(
                laidOut.id(),
                version,
                laidOut.operationDate(),
                laidOut.referenceSeriesUid(),
                laidOut.frameOfReferenceUid(),
                laidOut.axes(),
                laidOut.bones(),
                laidOut.components(),
                laidOut.joins(),
                faces);
    }

    /** The faces, the first of them under another label and with so many of its patches. */
    private static List<BoneInterface> faces(Construct laidOut, String label, int patches) {
        List<BoneInterface> faces = new ArrayList<>(laidOut.interfaces());
        BoneInterface first = faces.get(0);
        faces.set(
                0,
                new BoneInterface(
                        first.id(),
                        first.number(),
                        label,
                        first.component(),
                        first.bone(),
                        first.filler(),
                        first.patches().subList(0, patches)));
        return faces;
    }

    private void assertEverywhere(Staleness staleness, String words) {
        for (ReviewExam exam : subject.exams()) {
            assertEquals(Optional.of(words), staleness.why(exam.label(), CRANIAL));
            assertEquals(Optional.of(words), staleness.why(exam.label(), CAUDAL));
        }
    }

    @Test
    void isNoneForTheSameInputs() {
        Staleness staleness = of(subject);
        assertTrue(staleness.isNone());
        assertEquals(Optional.empty(), staleness.why("3 mo", CRANIAL));
    }

    @Test
    void hashesTheFilesThemselves() {
        try (ExamImages images = new ExamImages(subject, 0)) {
            assertTrue(Staleness.of(stored, subject, images, Progress.NONE).isNone());
        }
    }

    @Test
    void namesAnotherSettingThenAndNow() throws Exception {
        MeasurementSettings other = SettingsJson.parse("{\"sampleSpacingMm\": 0.75}", "test");
        assertEverywhere(
                of(subject.with(other)),
                "measured with other settings: sampleSpacingMm " + was.sampleSpacingMm() + ", now 0.75");
    }

    @Test
    void namesEveryChangedSetting() throws Exception {
        MeasurementSettings other = SettingsJson.parse("{\"sampleSpacingMm\": 0.75, \"frontMm\": 0.25}", "test");
        String words = of(subject.with(other)).why("surgery", CAUDAL).orElseThrow();
        assertEquals(
                "measured with other settings: frontMm " + was.frontMm() + ", now 0.25; sampleSpacingMm "
                        + was.sampleSpacingMm() + ", now 0.75",
                words);
    }

    @Test
    void namesAnotherGeometryOfTheConstruct() {
        Construct laidOut = subject.construct();
        List<BoneInterface> moved = faces(laidOut, laidOut.interfaces().get(0).label(), 1);
        BoneInterface first = laidOut.interfaces().get(0);
        if (first.patches().size() == 1) {
            moved.remove(1);
        }
        assertEverywhere(
                of(with(construct(laidOut, 2, moved), subject.exams())),
                "measured on construct version 1, now version 2 with another geometry");
    }

    @Test
    void doesNotMindAnotherLabel() {
        Construct laidOut = subject.construct();
        Construct renamed = construct(
                laidOut,
                1,
                faces(
                        laidOut,
                        "Upper endplate",
                        laidOut.interfaces().get(0).patches().size()));
        assertTrue(of(with(renamed, subject.exams())).isNone());
    }

    @Test
    void saysWhichFilesChanged() {
        exams.hash(1, "another");
        Staleness staleness = of(subject);
        assertEquals(
                Optional.of("the files of the exam have changed since it was measured"),
                staleness.why("3 mo", CRANIAL));
        assertEquals(Optional.empty(), staleness.why("surgery", CRANIAL));
        assertEquals(Optional.empty(), staleness.why("6 mo", CRANIAL));
        assertFalse(staleness.isNone());
    }

    @Test
    void theReferenceExamsFilesEnterEveryNumber() {
        exams.hash(0, "another");
        Staleness staleness = of(subject);
        assertEquals(
                Optional.of("the files of the exam have changed since it was measured"),
                staleness.why("surgery", CRANIAL));
        assertEquals(
                Optional.of("the files of the reference exam have changed since it was measured"),
                staleness.why("24 mo", CRANIAL));
    }

    @Test
    void saysThatAnExamIsGone() {
        Staleness staleness = of(with(subject.construct(), subject.exams().subList(0, 4)));
        assertEquals(
                Optional.of("measured, but the exam is no longer in the subject's document"),
                staleness.why("24 mo", CAUDAL));
        assertEquals(Optional.empty(), staleness.why("12 mo", CAUDAL));
    }

    @Test
    void saysThatFilesCanNoLongerBeRead() {
        exams.failing(4, "exam-5: no such folder");
        Staleness staleness = of(subject);
        assertEquals(
                Optional.of("measured, but its files can no longer be read: exam-5: no such folder"),
                staleness.why("24 mo", CAUDAL));
        assertEquals(Optional.empty(), staleness.why("12 mo", CAUDAL));
    }

    @Test
    void anUnreadableReferenceExamDoesNotCallOtherNumbersChanged() {
        exams.failing(0, "exam-1: no such folder");
        assertEquals(
                Optional.of("measured, but the files of the reference exam can no longer be read:"
                        + " exam-1: no such folder"),
                of(subject).why("3 mo", CAUDAL));
    }

    @Test
    void saysThatTheReferenceExamIsGone() {
        Staleness staleness = of(with(subject.construct(), subject.exams().subList(1, 5)));
        assertEquals(
                Optional.of("measured, but the reference exam is no longer in the subject's document"),
                staleness.why("3 mo", CRANIAL));
    }

    @Test
    void stopsWhenAsked() {
        Progress stopped = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> Staleness.of(stored, subject, exams, stopped));
    }
}
