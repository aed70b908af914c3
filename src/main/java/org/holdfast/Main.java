package org.holdfast;

import java.nio.file.Path;
import java.util.Optional;
import org.holdfast.cli.HoldfastCommandLine;
import org.holdfast.cli.WindowOpener;
import org.holdfast.desktop.HoldfastWindow;

/** Starts the program. */
public final class Main {

    /** The window of the desktop, for the command line. */
    private static final class DesktopOpener implements WindowOpener {

        @Override
        public int open(Optional<Path> folder) {
            return HoldfastWindow.open(folder);
        }

        @Override
        public boolean hasDisplay() {
            return HoldfastWindow.hasDisplay();
        }
    }

    private Main() {}

    /** Runs the command that the arguments name and ends the process with its exit code. */
    public static void main(String[] arguments) {
        // Before anything can touch the toolkit: no command needs a display, and pictures are made without one.
        System.setProperty("java.awt.headless", "true");
        System.exit(HoldfastCommandLine.run(new DesktopOpener(), arguments));
    }
}
