package org.holdfast.desktop;

import java.io.IOException;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import org.holdfast.app.UseCaseException;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.RunningWork;

/** Runs each piece of work on a daemon thread of its own and hands the result to the thread of the window. */
public final class WindowRunner implements BackgroundRunner {

    private final Executor windowThread;
    private final Set<RunningWork> all = ConcurrentHashMap.newKeySet();
    private final AtomicInteger count = new AtomicInteger();
    private volatile boolean closed;

    /** @param windowThread runs tasks on the thread of the window */
    public WindowRunner(Executor windowThread) {
        this.windowThread = windowThread;
    }

    @Override
    public <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        RunningWork running = new RunningWork(windowThread);
        all.add(running);
        Thread thread =
                new Thread(() -> work(running, work, onResult, onFailure), what + " " + count.incrementAndGet());
        thread.setDaemon(true);
        thread.start();
        return running;
    }

    private <T> void work(RunningWork running, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        try {
            T result = work.run(running);
            hand(running, () -> onResult.accept(result));
        } catch (UseCaseException | IOException | RuntimeException | Error failure) {
            // Whatever the work threw is told in its place on the screen.
            hand(running, () -> onFailure.accept(failure));
        }
    }

    private void hand(RunningWork running, Runnable result) {
        all.remove(running);
        windowThread.execute(() -> {
            running.finish();
            if (!closed) {
                result.run();
            }
        });
    }

    /** Whether nothing runs. */
    public boolean isIdle() {
        return all.isEmpty();
    }

    @Override
    public void close() {
        closed = true;
        all.forEach(RunningWork::cancel);
    }
}
