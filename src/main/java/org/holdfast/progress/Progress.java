package org.holdfast.progress;

import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/**
 * Where long work says how far it is and learns that it should stop. Implementations are called from worker threads and
 * must be thread-safe.
 */
public interface Progress {

    /** Listens to nothing and never cancels. */
    Progress NONE = new Progress() {
        @Override
        public void report(double fraction, String activity) {}

        @Override
        public boolean isCancelled() {
            return false;
        }
    };

    /**
     * Says how far the work is.
     *
     * @param fraction done so far, 0 to 1
     * @param activity what is being done, for a person
     */
    void report(double fraction, String activity);

    /** Whether the person asked to stop. */
    boolean isCancelled();

    /**
     * Stops the work if the person asked for it.
     *
     * @throws CancellationException if cancelled
     */
    default void stopIfCancelled() {
        if (isCancelled()) {
            throw new CancellationException("cancelled");
        }
    }

    /** This progress, which is cancelled too where a condition holds. */
    default Progress orCancelledIf(BooleanSupplier cancelled) {
        Progress whole = this;
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {
                whole.report(fraction, activity);
            }

            @Override
            public boolean isCancelled() {
                return cancelled.getAsBoolean() || whole.isCancelled();
            }
        };
    }

    /**
     * The part [from, to] of this progress as a progress of its own that runs from 0 to 1.
     *
     * @throws IllegalArgumentException unless 0 ≤ from ≤ to ≤ 1
     */
    default Progress part(double from, double to) {
        if (!(0 <= from && from <= to && to <= 1)) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "part of progress must lie in [0, 1], got [%s, %s]", from, to));
        }
        Progress whole = this;
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {
                whole.report(from + fraction * (to - from), activity);
            }

            @Override
            public boolean isCancelled() {
                return whole.isCancelled();
            }
        };
    }
}
