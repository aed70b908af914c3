package org.holdfast.app;

import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import org.holdfast.progress.Progress;

/**
 * Lets one caller at a time do a piece of work. The others wait, see how far it is, and can be stopped while they wait
 * without stopping it. Thread-safe.
 */
final class Turn {

    /** How often a waiting caller looks whether it was stopped. */
    private static final int LOOK_EVERY_MS = 20;

    private final ReentrantLock lock = new ReentrantLock();
    private volatile Stand stand = Stand.START;

    /** How far the work is. */
    private record Stand(double fraction, String activity) {
        private static final Stand START = new Stand(0, "");
    }

    /**
     * Waits for the turn; {@link #give} must follow.
     *
     * @throws CancellationException if the waiting caller was stopped or its thread interrupted; it then has no turn
     */
    void take(Progress waiting) {
        waiting.stopIfCancelled();
        try {
            while (!lock.tryLock(LOOK_EVERY_MS, TimeUnit.MILLISECONDS)) {
                waiting.stopIfCancelled();
                Stand seen = stand;
                if (!seen.activity.isEmpty()) {
                    waiting.report(seen.fraction, seen.activity);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("interrupted while waiting for another reading");
        }
    }

    /** Lets the next one. */
    void give() {
        stand = Stand.START;
        lock.unlock();
    }

    /** The progress of whoever has the turn, such that those who wait see it too. */
    Progress shared(Progress own) {
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {
                stand = new Stand(fraction, activity);
                own.report(fraction, activity);
            }

            @Override
            public boolean isCancelled() {
                return own.isCancelled();
            }
        };
    }
}
