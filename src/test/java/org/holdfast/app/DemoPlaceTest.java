package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoPlaceTest {

    @TempDir
    Path folder;

    private Path ready(Path wished, Progress progress) throws IOException {
        return DemoPlace.ready(wished, DemoSubject.Size.SMALL, progress);
    }

    private List<String> content() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(path -> path.getFileName().toString()).sorted().toList();
        }
    }

    /** Asks to stop after so many reports. */
    private static Progress stoppingAfter(int most) {
        AtomicInteger reports = new AtomicInteger();
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {
                reports.incrementAndGet();
            }

            @Override
            public boolean isCancelled() {
                return reports.get() > most;
            }
        };
    }

    @Test
    void makesTheDemoOnceAndFindsItAfterwards() throws Exception {
        Path wished = folder.resolve("demo");
        Files.createDirectory(wished);
        assertEquals(wished, ready(wished, Progress.NONE));
        assertEquals(5, ReviewSubject.open(wished).exams().size());
        FileTime made = Files.getLastModifiedTime(wished.resolve("subject.json"));
        assertEquals(wished, ready(wished, stoppingAfter(-1)));
        assertEquals(made, Files.getLastModifiedTime(wished.resolve("subject.json")));
        assertEquals(List.of("demo"), content());
    }

    @Test
    void takesTheNextFreeNameBesideSomethingElse() throws Exception {
        Files.createDirectory(folder.resolve("demo"));
        Files.writeString(folder.resolve("demo").resolve("kept.txt"), "kept");
        Files.writeString(folder.resolve("demo-2"), "a file");
        Path third = folder.resolve("demo-3");
        Files.createDirectory(third);
        Files.writeString(third.resolve("subject.json"), "made before");
        assertEquals(third, ready(folder.resolve("demo"), Progress.NONE));
        assertEquals("kept", Files.readString(folder.resolve("demo").resolve("kept.txt")));
    }

    @Test
    void leavesNothingOfADemoThatWasStopped() throws Exception {
        Path wished = folder.resolve("demo");
        assertThrows(CancellationException.class, () -> ready(wished, stoppingAfter(20)));
        assertEquals(List.of(), content());
    }

    @Test
    void saysWhichFolderCannotBeMade() throws Exception {
        Path file = folder.resolve("file");
        Files.writeString(file, "no folder");
        FileSystemException refusal =
                assertThrows(FileSystemException.class, () -> ready(file.resolve("demo"), Progress.NONE));
        assertFalse(refusal instanceof NoSuchFileException, () -> "hides what failed first: " + refusal);
        assertTrue(refusal.getFile().startsWith(file.toString()), refusal::getFile);
    }

    @Test
    void liesInThePersonsHome() {
        assertTrue(DemoPlace.usual().startsWith(Path.of(System.getProperty("user.home"))));
    }
}
