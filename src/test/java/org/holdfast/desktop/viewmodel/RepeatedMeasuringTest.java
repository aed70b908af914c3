package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import org.holdfast.app.ExamImages;
import org.holdfast.app.ReviewSubject;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What comes in late from work that was stopped says nothing of the work that was begun after it. */
final class RepeatedMeasuringTest {

    /** A piece of work that ends when the test says so. */
    private record Begun(String what, RunningWork running, Consumer<Throwable> onFailure) {}

    private final List<Begun> begun = new ArrayList<>();
    private CourseResults results;

    private final class Held implements BackgroundRunner {
        @Override
        public <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
            RunningWork running = new RunningWork(Runnable::run);
            begun.add(new Begun(what, running, onFailure));
            return running;
        }

        @Override
        public void close() {}
    }

    @BeforeEach
    void open() throws Exception {
        ReviewSubject subject = ReviewSubject.open(SampleSubject.folder());
        results = new CourseResults(subject, new ExamImages(subject, ExamImages.defaultBudget()), new Held());
    }

    private Status status() {
        return results.knownProperty().get().status();
    }

    @Test
    void endOfStoppedMeasuringDoesNotStopTheNext() {
        results.measureAgain();
        results.measureAgain();
        assertTrue(begun.get(0).running().isCancelled());
        begun.get(0).onFailure().accept(new CancellationException("cancelled"));
        assertEquals(new Status.Measuring(0, "starting"), status());
        begun.get(1).running().report(0.5, "exam 3 of 5");
        assertEquals(new Status.Measuring(0.5, "exam 3 of 5"), status());
    }

    @Test
    void failedReadingDoesNotBeginMeasuringTwice() {
        results.start();
        results.measureAgain();
        begun.get(0).onFailure().accept(new IOException("gone"));
        assertEquals(
                List.of("reading earlier results", "measuring"),
                begun.stream().map(Begun::what).toList());
    }

    @Test
    void reportsOfStoppedMeasuringAreNotShown() {
        results.measureAgain();
        results.measureAgain();
        begun.get(0).running().report(0.9, "exam 5 of 5");
        assertEquals(new Status.Measuring(0, "starting"), status());
    }

    @Test
    void showsWhatIsBeingDoneEvenWhileTheShareStays() {
        results.measureAgain();
        begun.get(0).running().report(0.4, "exam 2 of 5");
        begun.get(0).running().report(0.4, "writing files");
        assertEquals(new Status.Measuring(0.4, "writing files"), status());
    }

    @Test
    void saysThatThePersonStoppedIt() {
        results.measureAgain();
        results.stop();
        begun.get(0).onFailure().accept(new CancellationException("cancelled"));
        assertInstanceOf(Status.Stopped.class, status());
    }
}
