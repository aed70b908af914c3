package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

final class ProgressPrinterTest {

    private static final long SECOND_NANOS = 1_000_000_000L;

    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private final PrintStream out = new PrintStream(bytes, true, StandardCharsets.UTF_8);
    private final AtomicLong nanos = new AtomicLong();

    @Test
    void printsALineEveryTenSecondsAwayFromATerminal() {
        ProgressPrinter printer = new ProgressPrinter(out, false, nanos::get);
        for (int second = 1; second <= 25; second++) {
            nanos.addAndGet(SECOND_NANOS);
            printer.report(second / 25.0, "reading slices");
        }
        printer.finishLine();
        // By hand: 25 s of reports, one line at 10 s (10/25 = 40 %) and one at 20 s (80 %).
        assertEquals(
                " 40 %  reading slices|80 %  reading slices",
                " " + said().strip().replaceAll("\\R *", "|"));
        assertFalse(said().contains("\r "));
    }

    @Test
    void rewritesOneLineOnATerminalAndTakesItAway() {
        ProgressPrinter printer = new ProgressPrinter(out, true, nanos::get);
        printer.report(0.1, "reading slices");
        printer.report(0.2, "too soon to say");
        nanos.addAndGet(SECOND_NANOS);
        printer.report(0.3, "fitting");
        printer.finishLine();
        String[] lines = said().split("\r");
        assertEquals("10 %  reading slices", lines[1].strip());
        assertEquals("30 %  fitting", lines[2].strip());
        assertTrue(lines[3].isBlank());
        assertFalse(said().contains("\n"));
    }

    @Test
    void keepsALongActivityOnOneLine() {
        ProgressPrinter printer = new ProgressPrinter(out, true, nanos::get);
        printer.report(2, "a".repeat(200));
        assertTrue(said().startsWith("\r100 %  aaa"), said());
        // By hand: carriage return and 79 columns, one less than the usual terminal so that the line never wraps.
        assertEquals(80, said().length());
    }

    private String said() {
        return bytes.toString(StandardCharsets.UTF_8);
    }
}
