package org.holdfast.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Function;

/** A terminal whose two streams a test can read. */
final class CapturedTerminal {

    private final ByteArrayOutputStream result = new ByteArrayOutputStream();
    private final ByteArrayOutputStream messages = new ByteArrayOutputStream();
    private final Terminal terminal;

    CapturedTerminal() {
        PrintStream messageStream = new PrintStream(messages, true, StandardCharsets.UTF_8);
        terminal = new Terminal(
                new PrintStream(result, false, StandardCharsets.UTF_8),
                messageStream,
                new ProgressPrinter(messageStream, false, () -> 0L));
    }

    int run(Function<Terminal, List<Object>> commands, String... arguments) {
        return new HoldfastCommandLine(terminal, new TestWindow(), commands.apply(terminal)).execute(arguments);
    }

    String result() {
        return result.toString(StandardCharsets.UTF_8);
    }

    String messages() {
        return messages.toString(StandardCharsets.UTF_8);
    }

    /** All commands of the program, with a window that only takes notes. */
    static List<Object> commands(Terminal terminal) {
        return CommandList.all(terminal, new TestWindow());
    }
}
