package org.holdfast.desktop.viewmodel;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.Consumer;
import org.holdfast.app.UseCaseException;

/** Does work on the thread of the test: at once, or when the test says so. */
public final class SameThreadRunner implements BackgroundRunner {

    private final Deque<Runnable> waiting = new ArrayDeque<>();
    private final boolean atOnce;

    private SameThreadRunner(boolean atOnce) {
        this.atOnce = atOnce;
    }

    /** Work is done before {@code run} returns. */
    public static SameThreadRunner atOnce() {
        return new SameThreadRunner(true);
    }

    /** Work waits for {@link #next}. */
    public static SameThreadRunner held() {
        return new SameThreadRunner(false);
    }

    /** Does the piece of work that waits longest; tells whether there was one. */
    public boolean next() {
        Runnable work = waiting.poll();
        if (work == null) {
            return false;
        }
        work.run();
        return true;
    }

    @Override
    public <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        RunningWork running = new RunningWork(Runnable::run);
        Runnable task = () -> {
            T result;
            try {
                running.stopIfCancelled();
                result = work.run(running);
            } catch (UseCaseException | IOException | RuntimeException failure) {
                running.finish();
                onFailure.accept(failure);
                return;
            }
            running.finish();
            onResult.accept(result);
        };
        if (atOnce) {
            task.run();
        } else {
            waiting.add(task);
        }
        return running;
    }

    @Override
    public void close() {
        waiting.clear();
    }
}
