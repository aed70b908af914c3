package org.holdfast.desktop.viewmodel;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.holdfast.app.UseCaseException;

/** Does work at once and hands it over when the test says so: work that was done before it learned to stop. */
final class LateRunner implements BackgroundRunner {

    private final List<Runnable> done = new ArrayList<>();
    private int begun;

    /** Pieces of work begun so far. */
    int begun() {
        return begun;
    }

    /** Hands over what was done until now. */
    void handOver() {
        List<Runnable> now = List.copyOf(done);
        done.clear();
        now.forEach(Runnable::run);
    }

    @Override
    public <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        begun++;
        RunningWork running = new RunningWork(Runnable::run);
        try {
            T result = work.run(running);
            done.add(() -> onResult.accept(result));
        } catch (UseCaseException | IOException failure) {
            done.add(() -> onFailure.accept(failure));
        }
        return running;
    }

    @Override
    public void close() {
        done.clear();
    }
}
