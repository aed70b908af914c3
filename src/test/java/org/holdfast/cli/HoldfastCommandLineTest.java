package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.app.Caution;
import org.holdfast.app.Software;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

final class HoldfastCommandLineTest {

    private final CapturedTerminal terminal = new CapturedTerminal();

    private int run(String... arguments) {
        return terminal.run(own -> List.of(new TrialCommand(own)), arguments);
    }

    @Test
    void endsWithZeroAndTheCautionAfterAResultInWords() {
        assertEquals(0, run("trial", "DONE"));
        assertTrue(terminal.result().startsWith("contact 76 %, gap ≥ 1.2 mm"), terminal.result());
        assertTrue(unwrapped(terminal.result()).endsWith(Caution.TEXT), terminal.result());
        assertEquals("working", terminal.messages().strip());
    }

    @Test
    void printsOneDocumentAndNothingElseWithJson() {
        assertEquals(0, run("trial", "DONE", "--json"));
        assertEquals("{\"done\": true}", terminal.result().strip());
    }

    @Test
    void endsWithOneWhenACheckFails() {
        assertEquals(1, run("trial", "CHECK_FAILED"));
        assertTrue(terminal.result().startsWith("goal missed"));
    }

    @Test
    void endsWithOneAndPassesOnTheReasonWhenTheDataDoNotAllowIt() {
        assertEquals(1, run("trial", "DATA_REFUSED"));
        assertEquals("", terminal.result());
        assertTrue(
                terminal.messages().contains("holdfast: scan.dcm: (0028,0010) is missing, expected the number of rows"),
                terminal.messages());
    }

    @Test
    void putsWordsToAMissingFile() {
        assertEquals(1, run("trial", "FILE_MISSING"));
        assertTrue(terminal.messages().contains("nowhere/scan.dcm: no such file or folder."), terminal.messages());
    }

    @Test
    void callsAFaultAFaultInOneSentenceWithoutAStackTrace() {
        assertEquals(1, run("trial", "FAULT"));
        assertEquals(2, terminal.messages().strip().lines().count(), terminal.messages());
        assertTrue(terminal.messages().contains("fault of the program"), terminal.messages());
    }

    @Test
    void printsTheStackTraceOnlyWhenAsked() {
        assertEquals(1, run("trial", "FAULT", "--verbose"));
        assertTrue(terminal.messages().contains("at org.holdfast.cli.TrialCommand.call"), terminal.messages());
    }

    @Test
    void saysHowToAllowMoreMemory() {
        assertEquals(1, run("trial", "OUT_OF_MEMORY"));
        assertTrue(terminal.messages().contains("HOLDFAST_JAVA_OPTS"), terminal.messages());
    }

    @ParameterizedTest
    @ValueSource(strings = {"frob", "--frob", "trial", "trial SIDEWAYS", "trial DONE --frob", "trial DONE DONE"})
    void endsWithTwoAndPointsToTheHelpOnWrongUse(String line) {
        assertEquals(2, run(line.split(" ")));
        assertEquals("", terminal.result());
        assertTrue(terminal.messages().startsWith("holdfast: "), terminal.messages());
        assertTrue(terminal.messages().contains("--help\""), terminal.messages());
    }

    @Test
    void namesTheCommandsWhenCalledWithoutArguments() {
        assertEquals(2, run());
        assertEquals("", terminal.result());
        assertEquals(1, terminal.messages().strip().lines().count(), terminal.messages());
        assertTrue(terminal.messages().contains("(trial)"), terminal.messages());
    }

    @Test
    void treatsAnArgumentThatStartsWithAtAsAnOrdinaryOne() {
        assertEquals(2, run("trial", "@DONE"));
        assertTrue(terminal.messages().contains("@DONE"), terminal.messages());
    }

    @ParameterizedTest
    @ValueSource(strings = {"--help", "-h", "trial --help"})
    void endsEveryHelpWithTheCaution(String line) {
        assertEquals(0, run(line.split(" ")));
        assertTrue(unwrapped(terminal.result()).endsWith(Caution.TEXT), terminal.result());
        assertEquals("", terminal.messages());
    }

    @ParameterizedTest
    @ValueSource(strings = {"--version", "trial --version"})
    void tellsNameAndVersionEverywhere(String line) {
        assertEquals(0, run(line.split(" ")));
        assertEquals(Software.running().toString(), terminal.result().strip());
    }

    @Test
    void everyCommandHasADescriptionAndTheCautionInItsHelp() {
        Terminal own = Terminal.ofProcess();
        CommandLine all =
                new HoldfastCommandLine(own, new TestWindow(), CommandList.all(own, new TestWindow())).parser();
        assertFalse(all.getSubcommands().isEmpty());
        assertDescribed(all);
    }

    @Test
    void saysSoWhenTheResultCannotBeWritten() {
        OutputStream full = new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                throw new IOException("No space left on device");
            }
        };
        ByteArrayOutputStream messages = new ByteArrayOutputStream();
        PrintStream messageStream = new PrintStream(messages, true, StandardCharsets.UTF_8);
        Terminal broken = new Terminal(
                new PrintStream(full, false, StandardCharsets.UTF_8),
                messageStream,
                new ProgressPrinter(messageStream, false, () -> 0L));
        int code = new HoldfastCommandLine(broken, new TestWindow(), List.of(new TrialCommand(broken)))
                .execute("trial", "DONE");
        assertEquals(1, code);
        assertTrue(messages.toString(StandardCharsets.UTF_8).contains("could not be written completely"));
    }

    private static void assertDescribed(CommandLine command) {
        String name = command.getCommandSpec().qualifiedName();
        assertTrue(command.getCommandSpec().usageMessage().description().length > 0, name);
        assertTrue(unwrapped(command.getUsageMessage()).endsWith(Caution.TEXT), name);
        describedIn(command).forEach(text -> assertDoesNotThrow(() -> String.format(text), name + ": " + text));
        command.getSubcommands().values().forEach(HoldfastCommandLineTest::assertDescribed);
    }

    /** Texts that picocli takes for format strings: a lone % in one of them makes it print a warning. */
    private static Stream<String> describedIn(CommandLine command) {
        CommandLine.Model.CommandSpec spec = command.getCommandSpec();
        return Stream.concat(
                Stream.of(spec.usageMessage().description()),
                spec.args().stream().flatMap(argument -> Stream.of(argument.description())));
    }

    /** Undoes line wrapping, so that a paragraph can be compared as one sentence. */
    private static String unwrapped(String text) {
        return text.strip().replaceAll("\\s+", " ");
    }
}
