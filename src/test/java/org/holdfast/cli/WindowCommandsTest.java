package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.SubjectFolder;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The commands that end in a window. */
final class WindowCommandsTest {

    @TempDir
    Path folder;

    private final CapturedTerminal terminal = new CapturedTerminal();

    /** The subject's documents and its first exam, where it lies. */
    private void subject() throws Exception {
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        Path surgery = SampleSubject.exams().get(0).folder().toAbsolutePath();
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "2024-03-11", "construct": "construct.json",
                 "exams": [{"label": "surgery", "folder": "%s"}]}
                """
                        .formatted(surgery.toString().replace("\\", "\\\\")));
    }

    @Test
    void openShowsTheSubjectsFolder() throws Exception {
        subject();
        TestWindow window = new TestWindow();
        assertEquals(TestWindow.CLOSED, terminal.runWith(window, "open", folder.toString()), terminal.messages());
        assertEquals(List.of(Optional.of(folder)), window.opened());
    }

    @Test
    void openSaysWhatIsWrongWithASubjectWithoutOpening() throws Exception {
        Files.writeString(folder.resolve(SubjectFolder.DOCUMENT), "{}");
        TestWindow window = new TestWindow();
        Files.writeString(folder.resolve(SubjectFolder.DOCUMENT), "{");
        assertEquals(ExitCode.NOT_POSSIBLE, terminal.runWith(window, "open", folder.toString()));
        assertEquals(List.of(), window.opened());
        assertTrue(
                terminal.messages()
                        .contains(folder.resolve(SubjectFolder.DOCUMENT).toString()),
                terminal.messages());
        assertEquals(ExitCode.WRONG_USE, new CapturedTerminal().runWith(window, "open"));
    }

    @Test
    void openChecksTheConstructToo() throws Exception {
        subject();
        Files.writeString(folder.resolve("construct.json"), "{}");
        TestWindow window = new TestWindow();
        assertEquals(ExitCode.NOT_POSSIBLE, terminal.runWith(window, "open", folder.toString()));
        assertEquals(List.of(), window.opened());
        assertTrue(terminal.messages().contains("construct.json"), terminal.messages());
    }

    @Test
    void theDemoOpensItsWindowAfterTheResultWasSaid() throws Exception {
        subject();
        TestWindow window = new TestWindow();
        int code = terminal.runWith(window, "demo", "course", folder.toString(), "--open");
        assertEquals(TestWindow.CLOSED, code, terminal.messages());
        assertEquals(List.of(Optional.of(folder)), window.opened());
        assertTrue(terminal.result().contains("Written: "), terminal.result());
        // The caution follows the result, once.
        String unwrapped = terminal.result().replaceAll("\\s+", " ");
        assertEquals(2, unwrapped.split("not a medical device", -1).length, unwrapped);
    }

    @Test
    void withoutADisplayTheDemoSaysHowToOpenItLater() throws Exception {
        subject();
        TestWindow window = new TestWindow(false);
        assertEquals(
                ExitCode.DONE,
                terminal.runWith(window, "demo", "course", folder.toString(), "--open"),
                terminal.messages());
        assertEquals(List.of(), window.opened());
        assertTrue(terminal.messages().contains("\"holdfast open " + folder + "\""), terminal.messages());
    }

    @Test
    void theDemoOpensNoWindowUnlessAsked() throws Exception {
        subject();
        TestWindow window = new TestWindow();
        assertEquals(ExitCode.DONE, terminal.runWith(window, "demo", "course", folder.toString()));
        assertEquals(List.of(), window.opened());
    }
}
