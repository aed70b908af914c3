package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.holdfast.app.Inspection;
import org.holdfast.app.InspectionReport;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExportCapturesCommandTest {

    @TempDir
    Path folder;

    @Test
    void writesTheFiguresOfEachExam() throws Exception {
        Path subject = folder.resolve("subject");
        Path out = folder.resolve("out");
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.DONE,
                terminal.run(CapturedTerminal::commands, "demo", "subject", subject.toString(), "--small"),
                terminal.messages());
        assertEquals(
                ExitCode.DONE,
                terminal.run(CapturedTerminal::commands, "export", "captures", subject.toString(), out.toString()),
                terminal.messages());

        InspectionReport report = Inspection.inspect(List.of(out), Inspection.Detail.FILES, Progress.NONE);
        // By hand: five exams of two interfaces, one series an exam, and the course beside the last
        assertEquals(5, report.series().size());
        assertEquals(
                11, report.series().stream().mapToInt(s -> s.files().size()).sum());
        Set<String> kinds = new TreeSet<>();
        report.series().forEach(s -> kinds.add(s.kind()));
        assertEquals(Set.of("image"), kinds);
        try (Stream<Path> left = Files.list(out)) {
            assertTrue(left.allMatch(p -> p.toString().endsWith(".dcm")));
        }
    }

    @Test
    void saysThatAFolderIsNoSubject() {
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.NOT_POSSIBLE,
                terminal.run(CapturedTerminal::commands, "export", "captures", folder.toString(), "x"));
        assertTrue(terminal.messages().contains("subject.json"), terminal.messages());
    }
}
