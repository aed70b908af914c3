package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.holdfast.app.DemoSubject.Size;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoPlaceTest {

    @TempDir
    Path home;

    private Path wished;

    @BeforeEach
    void place() {
        wished = home.resolve("Holdfast").resolve("demo-subject");
    }

    /** Stops the work once a file lies in the place. */
    private static Progress stoppingOnceIn(Path place) {
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return Files.exists(place.resolve("construct.json"));
            }
        };
    }

    private static void putSubject(Path folder) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(SubjectFolder.DOCUMENT), "{}");
    }

    @Test
    void takesTheDemoThatWasMadeEarlier() throws Exception {
        assertEquals(Optional.empty(), DemoPlace.earlier(wished));
        putSubject(wished);
        assertEquals(wished, DemoPlace.ready(wished, Size.SMALL, Progress.NONE));
        assertEquals(Optional.of(wished), DemoPlace.earlier(wished));
        assertFalse(Files.exists(wished.resolve("construct.json")));
    }

    @Test
    void takesTheEarlierDemoBehindAFolderOfSomethingElse() throws Exception {
        Files.createDirectories(wished);
        Files.writeString(wished.resolve("letter.txt"), "not a subject");
        Path second = wished.resolveSibling("demo-subject-2");
        putSubject(second);
        assertEquals(second, DemoPlace.ready(wished, Size.SMALL, Progress.NONE));
    }

    @Test
    void makesItBesideWhatLiesThereAndRemovesWhatIsHalfMade() throws Exception {
        Files.createDirectories(wished);
        Files.writeString(wished.resolve("letter.txt"), "not a subject");
        Path second = wished.resolveSibling("demo-subject-2");
        assertThrows(CancellationException.class, () -> DemoPlace.ready(wished, Size.SMALL, stoppingOnceIn(second)));
        assertFalse(Files.exists(second));
        assertEquals("not a subject", Files.readString(wished.resolve("letter.txt")));
        assertFalse(Files.exists(wished.resolve("construct.json")));
    }

    @Test
    void usesAnEmptyFolderThatIsThere() throws Exception {
        Files.createDirectories(wished);
        assertThrows(CancellationException.class, () -> DemoPlace.ready(wished, Size.SMALL, stoppingOnceIn(wished)));
        assertFalse(Files.exists(wished));
    }

    @Test
    void saysWhatForbidsToWrite() throws Exception {
        Files.writeString(home.resolve("Holdfast"), "a file where a folder should be");
        IOException failure = assertThrows(IOException.class, () -> DemoPlace.ready(wished, Size.SMALL, Progress.NONE));
        assertTrue(failure.getMessage().contains("Holdfast"), failure.getMessage());
    }
}
