package org.holdfast.desktop;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/**
 * Tests that need the toolkit: starts it once in the process, without a display, and fails the test during which anything
 * was thrown on the window's thread that nobody caught. The toolkit must start before any control is made.
 */
public final class WindowTest implements BeforeAllCallback, BeforeEachCallback, AfterEachCallback {

    private static final long PATIENCE_S = 60;

    private static final UncaughtFailures FAILURES = new UncaughtFailures();
    private static boolean started;

    @Override
    public void beforeAll(ExtensionContext context) throws Exception {
        start();
    }

    @Override
    public void beforeEach(ExtensionContext context) {
        FAILURES.take();
    }

    @Override
    public void afterEach(ExtensionContext context) throws Exception {
        waitForPulse();
        FAILURES.rethrow();
    }

    private static synchronized void start() throws InterruptedException {
        if (started) {
            return;
        }
        started = true;
        CountDownLatch ready = new CountDownLatch(1);
        Platform.startup(ready::countDown);
        ready.await();
        Platform.setImplicitExit(false);
        Platform.runLater(() -> Thread.currentThread().setUncaughtExceptionHandler(FAILURES));
    }

    /** Runs on the window's thread and waits for what comes out; what is thrown there is thrown here. */
    public static <T> T fx(Callable<T> work) throws Exception {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        try {
            return task.get(PATIENCE_S, TimeUnit.SECONDS);
        } catch (TimeoutException e) {
            throw new AssertionError("the window's thread did not answer:\n" + threads(), e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof Exception cause) {
                throw cause;
            }
            if (e.getCause() instanceof Error error) {
                throw error;
            }
            throw e;
        }
    }

    /** {@link #fx} for what gives nothing back. */
    public static void fxRun(Runnable work) throws Exception {
        fx(() -> {
            work.run();
            return null;
        });
    }

    /** Waits until the window's thread has laid out and drawn what is waiting. */
    public static void waitForPulse() throws Exception {
        for (int n = 0; n < 3; n++) {
            fxRun(() -> {});
            Thread.sleep(20);
        }
    }

    /** Waits until something is so, asked on the window's thread. */
    public static void waitUntil(String what, BooleanSupplier isSo) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
        while (!fx(isSo::getAsBoolean)) {
            if (System.nanoTime() > end) {
                throw new AssertionError("waited in vain until " + what + "\n" + threads());
            }
            Thread.sleep(20);
        }
    }

    private static String threads() {
        List<String> lines = new ArrayList<>();
        Thread.getAllStackTraces().forEach((thread, stack) -> {
            lines.add(thread.getName());
            for (StackTraceElement element : stack) {
                lines.add("    " + element);
            }
        });
        return String.join("\n", lines);
    }
}
