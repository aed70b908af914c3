package org.holdfast.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectFolder;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code holdfast open}: the window on a subject's folder, or on images that are to be taken in. */
@Command(
        name = "open",
        description =
                "Opens the window on a subject's folder: all its exams side by side, cut through the same part of the"
                        + " implant at the same place. Measures what is not measured yet. A folder without subject.json, a"
                        + " file or a zip is read as images that are to be taken in. Without a display: exit code 1.")
final class OpenCommand implements Callable<Integer> {

    private final WindowOpener window;

    @Parameters(
            paramLabel = "DIR",
            description =
                    "Folder with subject.json, as \"demo subject\" makes one, or any folder, file or zip with images.")
    private Path folder;

    OpenCommand(WindowOpener window) {
        this.window = window;
    }

    @Override
    public Integer call() throws UseCaseException {
        // What is wrong is said here, where the person asked, and not in a window.
        if (!Files.exists(folder)) {
            throw new UseCaseException(folder + ": no such file or folder");
        }
        if (Files.exists(folder.resolve(SubjectFolder.DOCUMENT))) {
            ReviewSubject.open(folder);
        }
        return window.open(Optional.of(folder));
    }
}
