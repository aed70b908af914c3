package org.holdfast.cli;

import java.util.concurrent.Callable;
import org.holdfast.app.ValidationGoals;
import picocli.CommandLine;
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

    /** The command with one subcommand for each subject. */
    static CommandLine of(Terminal terminal) {
        CommandLine whole = new CommandLine(new ValidateCommand());
        for (ValidationGoals.Subject subject : ValidationGoals.Subject.values()) {
            CommandLine one = new CommandLine(new OneSubject(terminal, subject));
            one.getCommandSpec()
                    .usageMessage()
                    .description(
                            "Checks " + subject.words() + ": bias and 95 %% limits of estimate minus truth, shares.",
                            "Ends with 1 if a goal is missed.");
            whole.addSubcommand(subject.word(), one);
        }
        return whole;
    }

    /** {@code holdfast validate SUBJECT}. */
    @Command
    static final class OneSubject implements Callable<Integer> {

        private final Terminal terminal;
        private final ValidationGoals.Subject subject;

        @Mixin
        private JsonOption json;

        @Option(names = "--quick", description = "A fraction of the scenes.")
        private boolean quick;

        @Option(
                names = "--draw",
                paramLabel = "N",
                defaultValue = "0",
                description = "Other scenes of the same kinds: the N-th draw (default: ${DEFAULT-VALUE}).")
        private int draw;

        OneSubject(Terminal terminal, ValidationGoals.Subject subject) {
            this.terminal = terminal;
            this.subject = subject;
        }

        @Override
        public Integer call() {
            ValidationGoals goals = ValidationGoals.check(
                    subject,
                    quick ? ValidationGoals.Extent.QUICK : ValidationGoals.Extent.FULL,
                    draw,
                    terminal.progress());
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
