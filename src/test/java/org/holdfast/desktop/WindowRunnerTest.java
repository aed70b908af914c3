package org.holdfast.desktop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Work on threads of its own; the test's thread stands for the window's. */
@Timeout(30)
final class WindowRunnerTest {

    private static final long PATIENCE_S = 20;

    private final BlockingQueue<Runnable> window = new LinkedBlockingQueue<>();
    private final WindowRunner runner = new WindowRunner(window::add);
    private final List<String> said = new CopyOnWriteArrayList<>();

    private void turn() throws InterruptedException {
        window.poll(PATIENCE_S, TimeUnit.SECONDS).run();
    }

    private static String untilStopped(Progress progress, CountDownLatch begun) {
        begun.countDown();
        while (true) {
            progress.stopIfCancelled();
            Thread.onSpinWait();
        }
    }

    @Test
    void worksElsewhereAndHandsOverOnTheWindowsThread() throws Exception {
        Thread here = Thread.currentThread();
        runner.run(
                "work",
                progress -> {
                    assertNotSame(here, Thread.currentThread());
                    return "done";
                },
                result -> said.add(result + (Thread.currentThread() == here)),
                failure -> said.add(failure.toString()));
        turn();
        assertEquals(List.of("donetrue"), said);
    }

    @Test
    void handsAFailureOver() throws Exception {
        Running running = runner.run(
                "work",
                progress -> {
                    throw new IOException("disk full");
                },
                result -> said.add("result"),
                failure -> said.add(failure.getMessage()));
        turn();
        assertEquals(List.of("disk full"), said);
        assertTrue(running.isDone());
        assertTrue(runner.isIdle());
    }

    @Test
    void asksTheWindowOnceForManyReports() throws Exception {
        CountDownLatch reported = new CountDownLatch(1);
        Running running = runner.run(
                "work",
                progress -> {
                    for (int n = 1; n <= 1000; n++) {
                        progress.report(n / 1000.0, "step " + n);
                    }
                    reported.countDown();
                    return "done";
                },
                said::add,
                failure -> {});
        assertTrue(reported.await(PATIENCE_S, TimeUnit.SECONDS));
        assertEquals(0, running.fractionProperty().get());
        turn();
        assertEquals(1, running.fractionProperty().get());
        assertEquals("step 1000", running.activityProperty().get());
        turn();
        assertEquals(List.of("done"), said);
        assertTrue(window.isEmpty());
    }

    @Test
    void closingWaitsUntilWhatWasHalfMadeIsRemoved() throws Exception {
        CountDownLatch begun = new CountDownLatch(1);
        AtomicBoolean removed = new AtomicBoolean();
        runner.run(
                "work",
                progress -> {
                    try {
                        return untilStopped(progress, begun);
                    } catch (CancellationException e) {
                        rest();
                        removed.set(true);
                        throw e;
                    }
                },
                said::add,
                failure -> said.add("failure"));
        assertTrue(begun.await(PATIENCE_S, TimeUnit.SECONDS));
        runner.close();
        assertTrue(removed.get());
        turn();
        assertEquals(List.of(), said);
    }

    /** As long as removing a folder may take. */
    private static void rest() {
        try {
            Thread.sleep(200);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void closingDoesNotWaitForWorkThatDoesNotStop() throws Exception {
        CountDownLatch end = new CountDownLatch(1);
        runner.run(
                "work",
                progress -> {
                    boolean ended = waited(end);
                    return "ended " + ended;
                },
                said::add,
                failure -> {});
        runner.close();
        assertFalse(runner.isIdle());
        end.countDown();
        turn();
        assertEquals(List.of(), said);
    }

    private static boolean waited(CountDownLatch end) {
        try {
            return end.await(PATIENCE_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
