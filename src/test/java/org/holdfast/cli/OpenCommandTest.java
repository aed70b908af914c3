package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OpenCommandTest {

    private final CapturedTerminal terminal = new CapturedTerminal();
    private final TestWindow window = new TestWindow();

    private int run(String... arguments) {
        return terminal.run(each -> CommandList.all(each, window), arguments);
    }

    @Test
    void opensASubjectsFolder() {
        assertEquals(ExitCode.DONE, run("open", SampleSubject.folder().toString()), terminal.messages());
        assertEquals(List.of(Optional.of(SampleSubject.folder())), window.opened());
        assertEquals("", terminal.messages());
    }

    @Test
    void readsAFolderThatIsNoSubject(@TempDir Path images) {
        assertEquals(ExitCode.DONE, run("open", images.toString()), terminal.messages());
        assertEquals(List.of(Optional.of(images)), window.opened());
    }

    @Test
    void saysThatAPathIsNotThereWithoutOpening(@TempDir Path folder) {
        Path absent = folder.resolve("absent");
        assertEquals(ExitCode.NOT_POSSIBLE, run("open", absent.toString()));
        assertEquals(List.of(), window.opened());
        assertTrue(terminal.messages().contains(absent.toString()), terminal.messages());
        assertEquals(1, terminal.messages().strip().lines().count(), terminal.messages());
    }

    @Test
    void saysWhatIsWrongWithTheConstructWithoutOpening(@TempDir Path folder) throws Exception {
        Files.copy(SampleSubject.folder().resolve("subject.json"), folder.resolve("subject.json"));
        Files.writeString(folder.resolve("construct.json"), "{}");
        assertEquals(ExitCode.NOT_POSSIBLE, run("open", folder.toString()));
        assertEquals(List.of(), window.opened());
        assertTrue(terminal.messages().contains("construct.json"), terminal.messages());
    }

    @Test
    void needsAFolder() {
        assertEquals(ExitCode.WRONG_USE, run("open"));
        assertEquals(List.of(), window.opened());
    }
}
