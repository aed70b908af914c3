package org.holdfast.cli;

import java.io.PrintWriter;
import java.util.List;
import org.holdfast.app.Caution;
import org.holdfast.app.Software;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/**
 * The whole command line: parses arguments, runs the command, turns what happened into words and an exit code. Made for
 * one run; not thread-safe.
 */
public final class HoldfastCommandLine {

    private static final int HELP_COLUMNS = 100;

    private final Terminal terminal;
    private final RootCommand root;
    private final CommandLine commandLine;

    /** @param commands command objects, listed in the help in this order */
    HoldfastCommandLine(Terminal terminal, WindowOpener window, List<Object> commands) {
        this.terminal = terminal;
        this.root = new RootCommand(window);
        this.commandLine = new CommandLine(root);
        commands.forEach(commandLine::addSubcommand);
        describe(commandLine);
        commandLine
                .setOut(new PrintWriter(terminal.resultStream(), true))
                .setErr(new PrintWriter(terminal.messageStream(), true))
                .setExpandAtFiles(false) // a folder may well be called @something
                .setExecutionExceptionHandler((failure, command, parsed) -> failed(failure))
                .setParameterExceptionHandler((wrongUse, arguments) -> wrongUse(wrongUse));
    }

    /** Runs the command that the arguments name on this process's terminal; returns the exit code. */
    public static int run(WindowOpener window, String... arguments) {
        Terminal terminal = Terminal.ofProcess();
        return new HoldfastCommandLine(terminal, window, CommandList.all(terminal, window)).execute(arguments);
    }

    /** The parser with all commands, for looking at them without running one. */
    CommandLine parser() {
        return commandLine;
    }

    int execute(String... arguments) {
        int code;
        try {
            code = commandLine.execute(arguments);
        } catch (OutOfMemoryError | StackOverflowError e) {
            // The parser's own handler is for exceptions; these two can come from data that are too large or too deep.
            code = failed(e);
        }
        terminal.finish();
        if (terminal.lostOutput()) {
            terminal.message("The result could not be written completely to standard output.");
            return code == ExitCode.DONE ? ExitCode.NOT_POSSIBLE : code;
        }
        return code;
    }

    private int failed(Throwable failure) {
        terminal.message("holdfast: " + FailureWords.of(failure));
        if (root.isVerbose()) {
            failure.printStackTrace(terminal.messageStream());
        }
        return ExitCode.NOT_POSSIBLE;
    }

    private int wrongUse(ParameterException wrongUse) {
        CommandLine command = wrongUse.getCommandLine();
        terminal.message("holdfast: " + words(wrongUse));
        UnmatchedArgumentException.printSuggestions(wrongUse, command.getErr());
        terminal.message(
                "\"" + command.getCommandSpec().qualifiedName() + " --help\" tells what this command understands.");
        return ExitCode.WRONG_USE;
    }

    private static String words(ParameterException wrongUse) {
        return wrongUse instanceof UnmatchedArgumentException unmatched
                ? "unknown command, option or argument: " + String.join(" ", unmatched.getUnmatched())
                : wrongUse.getMessage();
    }

    /** Gives a command and all below it what every command has: help, version, caution. */
    private static void describe(CommandLine command) {
        CommandSpec spec = command.getCommandSpec();
        if (!spec.mixinStandardHelpOptions()) {
            spec.mixinStandardHelpOptions(true);
        }
        spec.versionProvider(() -> new String[] {Software.running().toString()});
        spec.usageMessage()
                .width(HELP_COLUMNS)
                .sortOptions(false)
                .footerHeading("%n")
                .footer(Caution.TEXT.replace("%", "%%"))
                .commandListHeading("%nCommands:%n")
                .parameterListHeading("%nArguments:%n")
                .optionListHeading("%nOptions:%n")
                .abbreviateSynopsis(false);
        command.getSubcommands().values().forEach(HoldfastCommandLine::describe);
    }
}
