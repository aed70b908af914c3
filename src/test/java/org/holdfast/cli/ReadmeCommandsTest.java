package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.documentation.Page;
import org.junit.jupiter.api.Test;

/** The commands that the documentation shows are understood. They are parsed, not run. */
final class ReadmeCommandsTest {

    private static final String LAUNCHER = "target/holdfast/bin/holdfast ";

    @Test
    void understandsTheCommandsOfTheReadme() throws IOException {
        assertUnderstood(Page.at("README.md"));
    }

    @Test
    void understandsTheCommandsOfTheValidation() throws IOException {
        assertUnderstood(Page.at("docs/validation.md"));
    }

    @Test
    void understandsTheCommandsOfDeidentification() throws IOException {
        assertUnderstood(Page.at("docs/deidentification.md"));
    }

    private static void assertUnderstood(Page page) {
        List<String> commands = page.commands().stream()
                .flatMap(line -> Stream.of(line.split(" && ")))
                .filter(command -> command.startsWith(LAUNCHER))
                .map(command -> command.substring(LAUNCHER.length()))
                .toList();
        assertFalse(commands.isEmpty());
        for (String command : commands) {
            Terminal terminal = Terminal.ofProcess();
            HoldfastCommandLine commandLine =
                    new HoldfastCommandLine(terminal, new TestWindow(), CommandList.all(terminal, new TestWindow()));
            assertDoesNotThrow(() -> commandLine.parser().parseArgs(command.split(" ")), command);
        }
    }
}
