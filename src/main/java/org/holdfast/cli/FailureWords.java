package org.holdfast.cli;

import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.util.concurrent.CancellationException;
import org.holdfast.finding.FileFailure;

/** One sentence for a person about something that was thrown. */
final class FailureWords {

    private FailureWords() {}

    /**
     * The sentence. A checked exception's message was written for the person and is passed on; file system exceptions,
     * whose message is only a path, get words; anything else is a fault of the program and is called one.
     */
    static String of(Throwable failure) {
        if (failure instanceof FileSystemException file && file.getFile() != null) {
            return file.getFile() + ": " + FileFailure.words(file) + ".";
        }
        if (failure instanceof CancellationException) {
            return "Stopped before it was done.";
        }
        if (failure instanceof OutOfMemoryError) {
            return "Not enough memory for these data; HOLDFAST_JAVA_OPTS=-Xmx8g, for example, allows more.";
        }
        if (failure instanceof UncheckedIOException && failure.getCause() != null) {
            return of(failure.getCause());
        }
        if (failure instanceof RuntimeException || failure instanceof Error || failure.getMessage() == null) {
            return "Unexpected failure, a fault of the program: " + failure + " (--verbose prints where).";
        }
        return failure.getMessage();
    }
}
