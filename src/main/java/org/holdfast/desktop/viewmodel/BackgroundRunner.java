package org.holdfast.desktop.viewmodel;

import java.io.IOException;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import org.holdfast.app.UseCaseException;
import org.holdfast.progress.Progress;

/**
 * Does what takes long away from the thread of the window and brings the result back to it. View models know only this;
 * tests do the work on their own thread.
 */
public interface BackgroundRunner extends AutoCloseable {

    /**
     * Work that takes long.
     *
     * @param <T> what comes out
     */
    @FunctionalInterface
    interface Work<T> {

        /** Does the work, says how far it is, and stops when asked to. */
        T run(Progress progress) throws UseCaseException, IOException;
    }

    /** Work that was begun; its properties change on the thread of the window. */
    interface Running {

        /** Asks the work to stop; it fails with a {@link java.util.concurrent.CancellationException} then. */
        void cancel();

        /** Whether result or failure was handed over. */
        boolean isDone();

        /** Done so far, 0 to 1. */
        ReadOnlyDoubleProperty fractionProperty();

        /** What is being done, for a person. */
        ReadOnlyStringProperty activityProperty();
    }

    /**
     * Begins work.
     *
     * @param what the work in words, the name of its thread
     * @param work the work
     * @param onResult takes what came out, on the thread of the window
     * @param onFailure takes what went wrong, on the thread of the window
     * @param <T> what comes out
     */
    <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure);

    /** Asks all work to stop; nothing is handed over any more. */
    @Override
    void close();
}
