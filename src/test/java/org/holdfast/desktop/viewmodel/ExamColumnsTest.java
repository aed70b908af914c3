package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.cases.MemoryExams;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.junit.jupiter.api.Test;

class ExamColumnsTest {

    private final MemoryExams exams = new MemoryExams();
    private final SameThreadRunner runner = SameThreadRunner.held();
    private final ExamColumns columns = new ExamColumns(subject(), exams, runner);

    private static ReviewSubject subject() {
        try {
            return ReviewSubject.open(SampleSubject.folder());
        } catch (UseCaseException e) {
            throw new AssertionError(e);
        }
    }

    private Images images(int exam) {
        return columns.get(exam).imagesProperty().get();
    }

    private void all() {
        while (runner.next()) {
            assertTrue(exams.read().size() < 20, "reads for ever");
        }
    }

    @Test
    void readsTheChosenExamFirst() {
        columns.show(Set.of(0, 2, 3, 4), 3);
        all();
        assertEquals(List.of(3, 0, 2, 4), exams.read());
        assertInstanceOf(Images.Loaded.class, images(3));
        assertInstanceOf(Images.Absent.class, images(1));
        assertTrue(columns.isSettled());
    }

    @Test
    void readsOneAtATime() {
        columns.show(Set.of(0, 1, 2), 0);
        assertInstanceOf(Images.Loading.class, images(0));
        assertInstanceOf(Images.Absent.class, images(1));
        assertFalse(columns.isSettled());
        columns.show(Set.of(0, 1, 2), 2);
        assertInstanceOf(Images.Absent.class, images(2));
        assertTrue(runner.next());
        assertInstanceOf(Images.Loaded.class, images(0));
        assertInstanceOf(Images.Loading.class, images(2), "chosen meanwhile");
        assertInstanceOf(Images.Absent.class, images(1));
    }

    @Test
    void knowsWhatTheFilesSayOnceTheyAreRead() {
        columns.show(Set.of(1), 1);
        assertTrue(columns.get(1).factsProperty().get().isEmpty());
        assertTrue(columns.get(1).volume().isEmpty());
        all();
        assertEquals(
                "2.25.2", columns.get(1).factsProperty().get().orElseThrow().seriesUid());
        assertEquals(100, columns.get(1).volume().orElseThrow().hu(0, 0, 0), "HU of the second exam of MemoryExams");
    }

    @Test
    void stopsWhatIsBeingReadAndGoesOnWithTheNext() {
        columns.show(Set.of(0, 1), 0);
        columns.stop(0);
        all();
        assertInstanceOf(Images.Stopped.class, images(0));
        assertInstanceOf(Images.Loaded.class, images(1));
        columns.show(Set.of(0, 1), 1);
        all();
        assertInstanceOf(Images.Stopped.class, images(0), "not read again until asked for");
        columns.retry(0);
        all();
        assertInstanceOf(Images.Loaded.class, images(0));
    }

    @Test
    void stopsWhatWaits() {
        columns.show(Set.of(0, 1), 0);
        columns.stop(1);
        all();
        assertEquals(List.of(0), exams.read());
        assertInstanceOf(Images.Stopped.class, images(1));
    }

    @Test
    void readsAgainWhatIsAskedForWhileItIsStopping() {
        columns.show(Set.of(0), 0);
        columns.stop(0);
        columns.retry(0);
        all();
        assertInstanceOf(Images.Loaded.class, images(0));
        assertTrue(columns.isSettled());
    }

    @Test
    void saysWhyAnExamFailedAndReadsTheOthers() {
        exams.failing(0, "exam-1: no such folder");
        columns.show(Set.of(0, 1), 0);
        all();
        assertEquals(new Images.Failed("exam-1: no such folder"), images(0));
        assertInstanceOf(Images.Loaded.class, images(1));
        exams.mend(0);
        columns.retry(0);
        all();
        assertInstanceOf(Images.Loaded.class, images(0));
    }

    @Test
    void letsGoOfWhatWasGivenUpOutOfSightAndReadsItAgainInSight() {
        columns.show(Set.of(0, 1), 0);
        all();
        assertEquals(Set.of(0, 1), exams.seen());
        exams.giveUp(0);
        columns.show(Set.of(1), 1);
        assertInstanceOf(Images.Absent.class, images(0));
        assertInstanceOf(Images.Loaded.class, images(1));
        assertEquals(Set.of(1), exams.seen());
        columns.show(Set.of(0, 1), 0);
        all();
        assertInstanceOf(Images.Loaded.class, images(0));
        assertEquals(List.of(0, 1, 0), exams.read());
    }

    @Test
    void letsGoOfWhatWasGivenUpAfterItLeftTheScreen() {
        columns.show(Set.of(0, 1), 0);
        all();
        columns.show(Set.of(1, 2), 1);
        exams.giveUp(0);
        all();
        assertInstanceOf(Images.Absent.class, images(0), "its volume would be kept twice over");
    }

    @Test
    void readsNothingOnceClosed() {
        columns.show(Set.of(0, 1), 0);
        columns.close();
        all();
        assertEquals(List.of(), exams.read());
        assertTrue(exams.isClosed());
        columns.show(Set.of(0, 1), 1);
        assertFalse(runner.next());
    }
}
