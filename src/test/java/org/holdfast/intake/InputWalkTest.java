package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Every file under the given paths, once, whatever else is there. */
class InputWalkTest {

    @TempDir
    Path folder;

    @Test
    void circlesOfLinksAreSaid() throws Exception {
        Path inner = Files.createDirectories(folder.resolve("a/b"));
        CtFiles.writeStack(inner, "s", 3, 1, b -> b);
        Files.createSymbolicLink(inner.resolve("up"), folder.resolve("a"));
        IntakeReport report = scan(folder);
        assertEquals(3, report.series().get(0).files().size());
        assertEquals(
                "a link that leads back to a folder above it",
                report.unreadable().get(0).reason());
    }

    @Test
    void linkedFilesCountOnce() throws Exception {
        Path inner = Files.createDirectory(folder.resolve("a"));
        CtFiles.writeStack(inner, "s", 3, 1, b -> b);
        Files.createSymbolicLink(folder.resolve("link"), inner.resolve("s0"));
        assertEquals(3, scan(folder).series().get(0).files().size());
        assertEquals(
                3,
                Intake.scan(List.of(folder, folder, inner), Progress.NONE)
                        .series()
                        .get(0)
                        .files()
                        .size());
    }

    @Test
    void severalFoldersAndFilesAreOneInput() throws Exception {
        Path a = Files.createDirectory(folder.resolve("a"));
        Path b = Files.createDirectory(folder.resolve("b"));
        CtFiles.write(a, "0", CtFiles.slice("0", 0, 0).build());
        CtFiles.write(b, "1", CtFiles.slice("1", 1, 0).build());
        CtFiles.write(folder, "2", CtFiles.slice("2", 2, 0).build());
        IntakeReport report = Intake.scan(List.of(a, b, folder.resolve("2")), Progress.NONE);
        assertEquals(3, report.series().get(0).stacks().get(0).grid().slices());
    }

    @Test
    void clutterIsLeftAsideAndCounted() throws Exception {
        CtFiles.writeStack(folder, "s", 3, 1, b -> b);
        Files.createDirectory(folder.resolve("__MACOSX"));
        Files.write(folder.resolve("__MACOSX/._s0"), new byte[] {0, 5, 22, 7});
        Files.write(folder.resolve("._s0"), new byte[] {0, 5, 22, 7});
        Files.write(folder.resolve(".DS_Store"), new byte[] {0, 0, 0, 1});
        IntakeReport report = scan(folder);
        assertEquals(List.of(), report.unreadable());
        // By hand: one folder and two files.
        assertTrue(
                report.findings().get(0).text().endsWith("left aside: 3"),
                report.findings().toString());
    }

    @Test
    void hiddenFilesThatAreImagesAreTaken() {
        CtFiles.writeStack(folder, ".s", 3, 1, b -> b);
        assertEquals(3, scan(folder).series().get(0).files().size());
    }

    @Test
    void anEmptyFolderIsSaid() {
        IntakeReport report = scan(folder);
        assertEquals("EMPTY_FOLDER", report.findings().get(0).code());
        assertEquals(folder.toString(), report.findings().get(0).where());
    }

    @Test
    @Timeout(value = 30, unit = TimeUnit.SECONDS)
    void aPipeIsNotOpened() throws Exception {
        Path pipe = folder.resolve("pipe");
        Assumptions.assumeTrue(Files.isExecutable(Path.of("/usr/bin/mkfifo")), "skipped: no mkfifo");
        assertEquals(
                0,
                new ProcessBuilder("/usr/bin/mkfifo", pipe.toString()).start().waitFor());
        assertEquals(
                "it is not a regular file", scan(folder).unreadable().get(0).reason());
    }

    @Test
    void aCancelStopsTheWork() {
        CtFiles.writeStack(folder, "s", 40, 1, b -> b);
        List<Double> told = new ArrayList<>();
        Progress listening = new Progress() {
            @Override
            public synchronized void report(double fraction, String activity) {
                told.add(fraction);
            }

            @Override
            public boolean isCancelled() {
                return told.size() >= 20;
            }
        };
        assertThrows(CancellationException.class, () -> Intake.scan(List.of(folder), listening));
        assertTrue(told.size() >= 20 && told.size() < 40, told.toString());
    }

    private static IntakeReport scan(Path path) {
        return Intake.scan(List.of(path), Progress.NONE);
    }
}
