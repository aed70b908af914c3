package org.holdfast;

import org.holdfast.cli.HoldfastCommandLine;

/** Starts the program. */
public final class Main {

    private Main() {}

    /** Runs the command that the arguments name and ends the process with its exit code. */
    public static void main(String[] arguments) {
        // Before anything can touch the toolkit: no command needs a display, and pictures are made without one.
        System.setProperty("java.awt.headless", "true");
        System.exit(HoldfastCommandLine.run(arguments));
    }
}
