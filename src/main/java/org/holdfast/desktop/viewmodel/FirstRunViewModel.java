package org.holdfast.desktop.viewmodel;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.util.Subscription;
import org.holdfast.app.DemoPlace;
import org.holdfast.app.DemoSubject;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;

/** What a person without a subject can do: open the demo, which is made the first time. */
public final class FirstRunViewModel {

    /** How it stands with the demo. */
    public sealed interface Status {

        /** Nothing is going on. */
        record Idle() implements Status {}

        /**
         * It is being made.
         *
         * @param fraction done so far, 0 to 1
         * @param activity what is being done
         * @param isStopping whether the person asked to stop, which takes a moment
         */
        record Making(double fraction, String activity, boolean isStopping) implements Status {}

        /**
         * It could not be made.
         *
         * @param reason why
         */
        record Failed(String reason) implements Status {}
    }

    private final BackgroundRunner runner;
    private final Path place;
    private final DemoSubject.Size size;
    private final Consumer<Path> open;
    private final ReadOnlyObjectWrapper<Status> status = new ReadOnlyObjectWrapper<>(new Status.Idle());
    private boolean isHere = true;
    private boolean isStopping;
    private Running running;
    private Subscription listening = Subscription.EMPTY;

    /**
     * @param runner does what takes long
     * @param place where the demo lies, or will
     * @param size how large it is made
     * @param open opens a subject's folder
     */
    public FirstRunViewModel(BackgroundRunner runner, Path place, DemoSubject.Size size, Consumer<Path> open) {
        this.runner = runner;
        this.place = place;
        this.size = size;
        this.open = open;
    }

    /** How it stands with the demo. */
    public ReadOnlyObjectProperty<Status> statusProperty() {
        return status.getReadOnlyProperty();
    }

    /** Where the demo lies, or will. */
    public Path place() {
        return place;
    }

    /** Where the demo was made earlier; empty if it has to be made. */
    public Optional<Path> earlier() {
        return DemoPlace.earlier(place);
    }

    /** Makes the demo if need be, and opens it. */
    public void openDemo() {
        if (status.get() instanceof Status.Making) {
            return;
        }
        isStopping = false;
        status.set(new Status.Making(0, "starting", false));
        running = runner.run(
                "making the demo", progress -> DemoPlace.ready(place, size, progress), this::made, this::failed);
        if (!running.isDone()) {
            Running now = running;
            listening = now.fractionProperty()
                    .subscribe(() -> showProgress(now))
                    .and(now.activityProperty().subscribe(() -> showProgress(now)));
        }
    }

    private void showProgress(Running now) {
        if (status.get() instanceof Status.Making) {
            status.set(new Status.Making(
                    now.fractionProperty().get(), now.activityProperty().get(), isStopping));
        }
    }

    /** The page is shown again: the demo is opened once it is made. */
    public void arrive() {
        isHere = true;
    }

    /** Something else is shown: a demo that is being made goes on, but does not take the place of what the person opened. */
    public void leave() {
        isHere = false;
    }

    /** Stops making it: what was half made is removed. Where it was made before that was heard it stays, but is not opened. */
    public void stop() {
        if (running != null && !isStopping && status.get() instanceof Status.Making making) {
            isStopping = true;
            running.cancel();
            status.set(new Status.Making(making.fraction(), making.activity(), true));
        }
    }

    private void made(Path folder) {
        listening.unsubscribe();
        status.set(new Status.Idle());
        if (isHere && !isStopping) {
            open.accept(folder);
        }
    }

    private void failed(Throwable failure) {
        listening.unsubscribe();
        status.set(
                failure instanceof CancellationException
                        ? new Status.Idle()
                        : new Status.Failed(FailureText.of(failure)));
    }
}
