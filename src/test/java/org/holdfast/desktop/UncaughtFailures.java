package org.holdfast.desktop;

import java.util.ArrayList;
import java.util.List;

/** Gathers what was thrown on a thread and caught by nobody. Thread-safe. */
final class UncaughtFailures implements Thread.UncaughtExceptionHandler {

    private final List<Throwable> failures = new ArrayList<>();

    @Override
    public synchronized void uncaughtException(Thread thread, Throwable failure) {
        failures.add(failure);
    }

    /** All since the last call. */
    synchronized List<Throwable> take() {
        List<Throwable> taken = List.copyOf(failures);
        failures.clear();
        return taken;
    }

    /** Fails if there were any since the last call. */
    void rethrow() {
        List<Throwable> taken = take();
        if (!taken.isEmpty()) {
            AssertionError error = new AssertionError(
                    "thrown on the window's thread and caught by nobody: " + taken.get(0), taken.get(0));
            taken.subList(1, taken.size()).forEach(error::addSuppressed);
            throw error;
        }
    }
}
