package org.holdfast.desktop;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import org.holdfast.app.UseCaseException;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.RunningWork;

/** Runs each piece of work on a daemon thread of its own and hands the result to the thread of the window. */
public final class WindowRunner implements BackgroundRunner {

    /** So long work may take to clear up after itself when the window is closed, ms. */
    private static final long PARTING_MS = 3000;

    private final Executor windowThread;
    private final Map<RunningWork, Thread> all = new ConcurrentHashMap<>();
    private final AtomicInteger count = new AtomicInteger();
    private volatile boolean closed;

    /** @param windowThread runs tasks on the thread of the window */
    public WindowRunner(Executor windowThread) {
        this.windowThread = windowThread;
    }

    @Override
    public <T> Running run(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        RunningWork running = new RunningWork(windowThread);
        Thread thread =
                new Thread(() -> work(running, work, onResult, onFailure), what + " " + count.incrementAndGet());
        thread.setDaemon(true);
        all.put(running, thread);
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

    /** Stops all work, and waits a little until what was half made is removed: the process may end after this. */
    @Override
    public void close() {
        closed = true;
        List<Thread> threads = List.copyOf(all.values());
        all.keySet().forEach(RunningWork::cancel);
        long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(PARTING_MS);
        try {
            for (Thread thread : threads) {
                thread.join(Math.max(1, TimeUnit.NANOSECONDS.toMillis(end - System.nanoTime())));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
