package org.holdfast.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** The program without a command: it opens the window. */
@Command(
        name = "holdfast",
        description =
                "Reviews serial imaging of porous titanium spine implants: does bone grow onto the implant, has a screw or"
                        + " rod loosened or broken. Without a command it opens its window.")
final class RootCommand implements Callable<Integer> {

    private final WindowOpener window;

    @Option(
            names = "--verbose",
            scope = ScopeType.INHERIT,
            description = "After an unexpected failure, print where in the program it happened.")
    private boolean verbose;

    RootCommand(WindowOpener window) {
        this.window = window;
    }

    boolean isVerbose() {
        return verbose;
    }

    @Override
    public Integer call() {
        return window.open(Optional.empty());
    }
}
