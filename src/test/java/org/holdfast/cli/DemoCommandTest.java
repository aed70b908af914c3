package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo command's wrong uses; what it makes is checked with its use case. */
class DemoCommandTest {

    @TempDir
    Path folder;

    private final CapturedTerminal terminal = new CapturedTerminal();

    @Test
    void asksWhatToMake() {
        assertEquals(ExitCode.WRONG_USE, terminal.run(CapturedTerminal::commands, "demo"));
        assertTrue(terminal.messages().contains("demo subject DIR"), terminal.messages());
    }

    @Test
    void needsFolder() {
        assertEquals(ExitCode.WRONG_USE, terminal.run(CapturedTerminal::commands, "demo", "subject"));
        assertTrue(terminal.messages().contains("DIR"), terminal.messages());
    }

    @Test
    void refusesFolderThatHoldsSomething() throws Exception {
        Files.writeString(folder.resolve("kept.txt"), "kept");
        int code = terminal.run(CapturedTerminal::commands, "demo", "subject", folder.toString());
        assertEquals(ExitCode.NOT_POSSIBLE, code);
        assertTrue(terminal.messages().contains("is not empty"), terminal.messages());
        assertEquals("kept", Files.readString(folder.resolve("kept.txt")));
    }
}
