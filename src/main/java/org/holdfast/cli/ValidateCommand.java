package org.holdfast.cli;

import java.util.concurrent.Callable;
import org.holdfast.app.ContactGoals;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code holdfast validate}: the estimators against simulated scans of known truth. */
@Command(
        name = "validate",
        description = "Checks the estimators against simulated scans of known truth and the goals set for them.",
        subcommands = {})
final class ValidateCommand implements Callable<Integer> {

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(
                spec.commandLine(),
                "name what to validate: " + String.join(", ", spec.subcommands().keySet()));
    }

    /** {@code holdfast validate contact}. */
    @Command(
            name = "contact",
            description = {
                "Interface contact by threshold on simulated faces: bias and 95 %% limits of estimate minus truth.",
                "Ends with 1 if a goal is missed."
            })
    static final class Contact implements Callable<Integer> {

        private final Terminal terminal;

        @Mixin
        private JsonOption json;

        @Option(names = "--quick", description = "About a quarter of the scenes.")
        private boolean quick;

        @Option(
                names = "--draw",
                paramLabel = "N",
                defaultValue = "0",
                description = "Other scenes of the same kinds: the N-th draw (default: ${DEFAULT-VALUE}).")
        private int draw;

        Contact(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            ContactGoals goals = ContactGoals.check(
                    quick ? ContactGoals.Extent.QUICK : ContactGoals.Extent.FULL, draw, terminal.progress());
            if (json.isWanted()) {
                terminal.document(goals.document());
            } else {
                ValidationWords.lines(goals).forEach(terminal::line);
            }
            if (!goals.areReached()) {
                terminal.message("A goal is missed.");
                return ExitCode.NOT_POSSIBLE;
            }
            return ExitCode.DONE;
        }
    }
}
