package org.holdfast.cli;

import java.nio.file.Path;
import java.util.Optional;

/** Opens the window; the command line knows no toolkit. */
public interface WindowOpener {

    /**
     * Opens the window and waits until it is closed.
     *
     * @param folder a subject to show, or images to take in; empty for the first page
     * @return exit code: 0 once it is closed, 1 if it cannot open
     */
    int open(Optional<Path> folder);

    /** Whether there is a display to open it on, as far as can be said beforehand. */
    boolean hasDisplay();
}
