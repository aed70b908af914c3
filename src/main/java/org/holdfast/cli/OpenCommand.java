package org.holdfast.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code holdfast open}: the window on a subject's folder. */
@Command(
        name = "open",
        description =
                "Opens the window on a subject's folder: all its exams side by side, cut through the same part of the"
                        + " implant at the same place. Measures what is not measured yet. Without a display: exit code 1.")
final class OpenCommand implements Callable<Integer> {

    private final WindowOpener window;

    @Parameters(paramLabel = "DIR", description = "Folder with subject.json, as \"demo subject\" makes one.")
    private Path folder;

    OpenCommand(WindowOpener window) {
        this.window = window;
    }

    @Override
    public Integer call() throws UseCaseException {
        // A wrong folder is said here, where the person asked, and not in a window.
        ReviewSubject.open(folder);
        return window.open(Optional.of(folder));
    }
}
