package org.holdfast.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Objects;
import org.holdfast.app.Caution;
import org.holdfast.progress.Progress;

/**
 * Where a command speaks: its result on standard output, everything else on standard error. Not thread-safe but for the
 * progress it hands out.
 */
public final class Terminal {

    private static final int WRAP_COLUMNS = 100;

    private final PrintStream result;
    private final PrintStream messages;
    private final ProgressPrinter progress;
    private boolean saidWords;

    /**
     * @param result receives results only
     * @param messages receives messages and progress
     * @param progress prints progress onto {@code messages}
     */
    Terminal(PrintStream result, PrintStream messages, ProgressPrinter progress) {
        this.result = Objects.requireNonNull(result, "result");
        this.messages = Objects.requireNonNull(messages, "messages");
        this.progress = Objects.requireNonNull(progress, "progress");
    }

    /** The terminal of this process. Output is UTF-8, also where the locale says less, but for a Windows console. */
    static Terminal ofProcess() {
        PrintStream result = new PrintStream(new FileOutputStream(FileDescriptor.out), false, charset());
        PrintStream messages = new PrintStream(new FileOutputStream(FileDescriptor.err), true, charset());
        return new Terminal(result, messages, new ProgressPrinter(messages, rewritesLines(), System::nanoTime));
    }

    /** Prints one line of the result in words. */
    public void line(String words) {
        progress.finishLine();
        saidWords = true;
        result.println(words);
    }

    /** Prints the result as a document; a command that does so prints nothing else as its result. */
    public void document(String json) {
        progress.finishLine();
        result.println(json.stripTrailing());
    }

    /** Prints a message for the person, beside the result. */
    public void message(String sentence) {
        progress.finishLine();
        messages.println(sentence);
    }

    /** Where the work of this command reports how far it is. */
    public Progress progress() {
        return progress;
    }

    /** Ends a command, or its words before something that takes long: the caution after a result in words, and all of it written out. */
    void finish() {
        progress.finishLine();
        if (saidWords) {
            result.println();
            result.println(Wrapping.wrap(Caution.TEXT, WRAP_COLUMNS));
            saidWords = false;
        }
        result.flush();
        messages.flush();
    }

    /** Whether something of the result could not be written, as on a full disk. */
    boolean lostOutput() {
        return result.checkError();
    }

    PrintStream resultStream() {
        return result;
    }

    PrintStream messageStream() {
        return messages;
    }

    private static Charset charset() {
        boolean windows = System.getProperty("os.name").toLowerCase(Locale.ROOT).startsWith("windows");
        if (windows && System.console() != null) {
            return System.console().charset();
        }
        return StandardCharsets.UTF_8;
    }

    /** The launcher knows whether standard error is a terminal; without it only a full console is sure. */
    private static boolean rewritesLines() {
        String said = System.getProperty("holdfast.messages.terminal");
        return said == null ? System.console() != null : Boolean.parseBoolean(said);
    }
}
