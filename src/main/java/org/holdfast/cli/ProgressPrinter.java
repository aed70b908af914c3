package org.holdfast.cli;

import java.io.PrintStream;
import java.util.Locale;
import java.util.Objects;
import java.util.function.LongSupplier;
import org.holdfast.progress.Progress;

/**
 * Says on standard error how far the work is: on a terminal by rewriting one line, elsewhere by a line now and then, so
 * that a log stays short. Thread-safe. Never cancels: the interrupt key ends the process.
 */
final class ProgressPrinter implements Progress {

    private static final long NANOS_PER_SECOND = 1_000_000_000L;
    private static final long REWRITE_EVERY_NANOS = NANOS_PER_SECOND / 10;
    private static final long LINE_EVERY_NANOS = 10 * NANOS_PER_SECOND;
    private static final int LINE_COLUMNS = 79;

    private final PrintStream out;
    private final boolean rewritesLine;
    private final LongSupplier nanoTime;
    private boolean lineOpen;
    private boolean saidSomething;
    private long lastNanos;

    /**
     * @param out where to print
     * @param rewritesLine whether a carriage return takes the line back, as on a terminal
     * @param nanoTime clock, nanoseconds from any origin
     */
    ProgressPrinter(PrintStream out, boolean rewritesLine, LongSupplier nanoTime) {
        this.out = Objects.requireNonNull(out, "out");
        this.rewritesLine = rewritesLine;
        this.nanoTime = Objects.requireNonNull(nanoTime, "nanoTime");
        this.lastNanos = nanoTime.getAsLong();
    }

    @Override
    public synchronized void report(double fraction, String activity) {
        long now = nanoTime.getAsLong();
        long since = now - lastNanos;
        if (rewritesLine ? saidSomething && since < REWRITE_EVERY_NANOS : since < LINE_EVERY_NANOS) {
            return;
        }
        lastNanos = now;
        saidSomething = true;
        String text = text(fraction, activity);
        if (rewritesLine) {
            out.print('\r' + padded(text));
            out.flush();
            lineOpen = true;
        } else {
            out.println(text);
        }
    }

    @Override
    public boolean isCancelled() {
        return false;
    }

    /** Takes an open progress line off the terminal, so that other words start on a clean one. */
    synchronized void finishLine() {
        if (lineOpen) {
            out.print('\r' + padded("") + '\r');
            out.flush();
            lineOpen = false;
        }
    }

    private static String text(double fraction, String activity) {
        long percent = Math.round(100 * Math.max(0, Math.min(1, fraction)));
        String text = String.format(Locale.ROOT, "%3d %%  %s", percent, activity);
        return text.length() <= LINE_COLUMNS ? text : text.substring(0, LINE_COLUMNS - 1) + "…";
    }

    private static String padded(String text) {
        return text + " ".repeat(LINE_COLUMNS - text.length());
    }
}
