package org.holdfast.app;

import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import org.holdfast.progress.Progress;

/**
 * Lets one caller at a time do a piece of work; who waits for it can be stopped without stopping the work. Thread-safe.
 */
final class Turn {

    /** How often a waiting caller looks whether it was stopped. */
    private static final int LOOK_EVERY_MS = 20;

    private final ReentrantLock lock = new ReentrantLock();

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
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("interrupted while waiting for another reading");
        }
    }

    /** Lets the next one. */
    void give() {
        lock.unlock();
    }
}
