package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import org.holdfast.app.DemoSubject.Size;
import org.holdfast.desktop.viewmodel.FirstRunViewModel.Status;
import org.junit.jupiter.api.Test;

/** What Stop means at the moments that real work seldom meets; the test says how the work ends. */
final class FirstRunStopTest {

    private static final Path PLACE = Path.of("home", "demo-subject");

    private final RunningWork work = new RunningWork(Runnable::run);
    private final List<Path> opened = new ArrayList<>();
    private Consumer<Object> onResult;
    private Consumer<Throwable> onFailure;

    private final class Staged implements BackgroundRunner {
        @Override
        @SuppressWarnings("unchecked") // The test hands over what this work would: a path.
        public <T> Running run(String what, Work<T> todo, Consumer<T> result, Consumer<Throwable> failed) {
            onResult = value -> result.accept((T) value);
            onFailure = failed;
            return work;
        }

        @Override
        public void close() {}
    }

    private FirstRunViewModel begun() {
        FirstRunViewModel model = new FirstRunViewModel(new Staged(), PLACE, Size.SMALL, opened::add);
        model.openDemo();
        return model;
    }

    @Test
    void opensNothingWhenStopComesTooLateForTheWork() {
        FirstRunViewModel model = begun();
        model.stop();
        onResult.accept(PLACE);
        assertEquals(List.of(), opened);
        assertEquals(new Status.Idle(), model.statusProperty().get());
    }

    @Test
    void saysThatItIsStoppingUntilItHasStopped() {
        FirstRunViewModel model = begun();
        work.report(0.4, "exam 2 of 5");
        model.stop();
        assertTrue(work.isCancelled());
        work.report(0.5, "exam 3 of 5");
        assertEquals(
                new Status.Making(0.5, "exam 3 of 5", true),
                model.statusProperty().get());
        onFailure.accept(new CancellationException("cancelled"));
        assertEquals(new Status.Idle(), model.statusProperty().get());
    }

    @Test
    void opensTheDemoThatIsMadeAfterAStop() {
        FirstRunViewModel model = begun();
        model.stop();
        onFailure.accept(new CancellationException("cancelled"));
        model.openDemo();
        assertEquals(
                new Status.Making(0, "starting", false), model.statusProperty().get());
        onResult.accept(PLACE);
        assertEquals(List.of(PLACE), opened);
    }

    @Test
    void tellsWhatIsBeingDoneEvenWhileTheShareStays() {
        FirstRunViewModel model = begun();
        work.report(0.4, "exam 2 of 5");
        work.report(0.4, "writing files");
        assertEquals(
                new Status.Making(0.4, "writing files", false),
                model.statusProperty().get());
    }
}
