package org.holdfast.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;
import picocli.CommandLine.Spec;

/** The program without a command: it would open the window, which this version does not have. */
@Command(
        name = "holdfast",
        description =
                "Reviews serial imaging of porous titanium spine implants: does bone grow onto the implant, has a screw or"
                        + " rod loosened or broken.")
final class RootCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Option(
            names = "--verbose",
            scope = ScopeType.INHERIT,
            description = "After an unexpected failure, print where in the program it happened.")
    private boolean verbose;

    RootCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    boolean isVerbose() {
        return verbose;
    }

    @Override
    public Integer call() {
        String commands = String.join(", ", spec.subcommands().keySet());
        terminal.message("This version has no window; use one of its commands (" + commands
                + "), which need no display;" + " \"holdfast --help\" tells about them.");
        return ExitCode.WRONG_USE;
    }
}
