package org.holdfast.cli;

import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.concurrent.CancellationException;

/** One sentence for a person about something that was thrown. */
final class FailureWords {

    private FailureWords() {}

    /**
     * The sentence. A checked exception's message was written for the person and is passed on; file system exceptions,
     * whose message is only a path, get words; anything else is a fault of the program and is called one.
     */
    static String of(Throwable failure) {
        if (failure instanceof NoSuchFileException) {
            return "There is no file or folder " + failure.getMessage() + ".";
        }
        if (failure instanceof AccessDeniedException) {
            return "No permission to use " + failure.getMessage() + ".";
        }
        if (failure instanceof FileAlreadyExistsException) {
            return "There is already a file or folder " + failure.getMessage() + ".";
        }
        if (failure instanceof DirectoryNotEmptyException) {
            return "The folder " + failure.getMessage() + " is not empty.";
        }
        if (failure instanceof NotDirectoryException) {
            return failure.getMessage() + " is not a folder.";
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
