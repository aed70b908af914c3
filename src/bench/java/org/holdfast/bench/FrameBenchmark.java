package org.holdfast.bench;

import java.util.Locale;
import org.holdfast.desktop.HoldfastWindow;

/**
 * Times a frame of the review: the cuts alone ({@link QueueFrames}), and the whole window from the mouse event until it is
 * painted ({@link WindowFrames}). Exit code 1 if the window misses its goal. The window needs a display; without one only
 * the cuts are timed.
 */
public final class FrameBenchmark {

    private FrameBenchmark() {}

    /** Takes no arguments. */
    public static void main(String[] arguments) throws Exception {
        System.out.printf(
                Locale.ROOT,
                "%d processors, Java %s, load of the machine %.1f%n",
                Runtime.getRuntime().availableProcessors(),
                Runtime.version(),
                java.lang.management.ManagementFactory.getOperatingSystemMXBean()
                        .getSystemLoadAverage());
        boolean reached = true;
        if (HoldfastWindow.hasDisplay()) {
            reached = WindowFrames.report();
        } else {
            System.out.println("no display: the window is not timed");
        }
        QueueFrames.report();
        System.exit(reached ? 0 : 1);
    }
}
