package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Zip archives are read whole, and no name or size in them is trusted. */
class ArchiveTest {

    @TempDir
    Path folder;

    private final Map<String, byte[]> slices = new LinkedHashMap<>();

    @BeforeEach
    void writeSlices() throws IOException {
        Path loose = Files.createTempDirectory(folder, "loose");
        CtFiles.writeStack(loose, "s", 12, 1, b -> b);
        for (int k = 0; k < 12; k++) {
            slices.put("disc/IM" + k, Files.readAllBytes(loose.resolve("s" + k)));
        }
        try (Stream<Path> all = Files.list(loose)) {
            for (Path file : all.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(loose);
    }

    @ParameterizedTest
    @ValueSource(ints = {ZipEntry.DEFLATED, ZipEntry.STORED})
    void itsSlicesMakeAStackWhosePixelsCanBeLoadedLater(int method) throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices, method);
        IntakeReport report = scan(archive);
        Stack stack = report.series().get(0).stacks().get(0);
        assertEquals(12, stack.grid().slices());
        assertEquals(archive + "!disc/IM0", stack.slices().get(0).where());
        // By hand: stored 1000 + k, intercept −1024; mean over k = 0 to 11 is −24 + 5.5.
        assertEquals(
                -18.5,
                VolumeLoader.load(stack, Progress.NONE).volume().statistics().meanHu(),
                1e-9);
        assertEquals(List.of(), report.unreadable());
    }

    @Test
    void anArchiveInAFolderIsOpenedToo() {
        ZipFiles.write(folder.resolve("A.ZIP"), slices);
        assertEquals(12, scan(folder).series().get(0).files().size());
    }

    @Test
    void aGivenArchiveIsKnownByItsContentsWhateverItsName() {
        assertEquals(
                12,
                scan(ZipFiles.write(folder.resolve("disc"), slices))
                        .series()
                        .get(0)
                        .files()
                        .size());
    }

    @Test
    void namesThatLeadOutAreNamesOnly() throws Exception {
        Path inner = Files.createDirectory(folder.resolve("inner"));
        Map<String, byte[]> hostile = new LinkedHashMap<>();
        hostile.put("../../out0", slices.get("disc/IM0"));
        hostile.put("/tmp/out1", slices.get("disc/IM1"));
        hostile.put("C:\\out2", slices.get("disc/IM2"));
        hostile.put("a\\..\\..\\out3", slices.get("disc/IM3"));
        IntakeReport report = scan(ZipFiles.write(inner.resolve("a.zip"), hostile));
        assertEquals(4, report.series().get(0).files().size());
        String text = report.findings().stream()
                .filter(f -> f.code().equals("ARCHIVE_NAMES_LEAD_OUT"))
                .findFirst()
                .orElseThrow()
                .text();
        assertTrue(text.startsWith("4 names"), text);
        for (ImageHeader header : report.series().get(0).files()) {
            assertTrue(
                    header.path().getFileName().toString().matches("\\d+"),
                    header.path().toString());
            assertFalse(header.path().startsWith(folder), header.path().toString());
        }
        try (Stream<Path> all = Files.list(folder)) {
            assertEquals(List.of(inner), all.toList());
        }
    }

    @Test
    void encryptedEntriesAreSaid() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        ZipFiles.markEncrypted(archive);
        IntakeReport report = scan(archive);
        assertEquals(12, report.unreadable().size());
        assertTrue(report.unreadable().get(0).reason().startsWith("it is encrypted"));
        assertEquals(archive + "!disc/IM0", report.unreadable().get(0).path());
    }

    @Test
    void anotherMethodIsSaid() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        // Source: APPNOTE 6.3, section 4.4.5: method 14 is LZMA, at byte 10 of an entry of the list
        ZipFiles.change(archive, 10, (short) 14);
        assertTrue(scan(archive).unreadable().get(0).reason().contains("method 14"));
    }

    @Test
    void anArchiveInsideAnArchiveIsNotOpenedButSaid() throws Exception {
        Path inner = ZipFiles.write(folder.resolve("inner"), slices);
        byte[] bytes = Files.readAllBytes(inner);
        Files.delete(inner);
        IntakeReport report = scan(ZipFiles.write(folder.resolve("a.zip"), Map.of("inner.zip", bytes)));
        assertEquals(List.of(), report.series());
        assertTrue(report.unreadable().get(0).reason().startsWith("an archive inside an archive"));
    }

    @Test
    void anEntryThatUnpacksToTooMuchIsStoppedAndTheRestIsRead() throws Exception {
        slices.put("bomb", ZipFiles.bomb(3 << 20));
        // By hand: 3 MiB of zeros deflate about 1000 times; the archive has enough else in it not to be refused whole.
        slices.put("noise", noise(1 << 20));
        IntakeReport report = scan(folder, new ZipLimits(100, 1 << 30, 100, 1 << 20), "a.zip");
        assertEquals(12, report.series().get(0).files().size());
        assertTrue(
                report.unreadable().stream()
                        .anyMatch(u -> u.path().endsWith("!bomb")
                                && u.reason().startsWith("it unpacks to more than 100 times its size")),
                report.unreadable().toString());
    }

    @Test
    void anArchiveThatUnpacksToTooMuchIsRefusedWhole() throws Exception {
        slices.put("noise", noise(1 << 20));
        IntakeReport report = scan(folder, new ZipLimits(100, 1 << 19, 100, 1 << 18), "a.zip");
        assertEquals(List.of(), report.series());
        assertTrue(report.unreadable().get(0).reason().startsWith("the archive unpacks to too much"));
    }

    @Test
    void anArchiveOfTooManyEntriesIsRefused() {
        IntakeReport report = scan(folder, new ZipLimits(5, 1 << 30, 100, 1 << 20), "a.zip");
        assertEquals("12 entries, more than 5", report.unreadable().get(0).reason());
    }

    @Test
    void cutAtAnyPlaceItSaysSoAndNothingElse() throws Exception {
        byte[] whole = Files.readAllBytes(ZipFiles.write(folder.resolve("whole"), slices));
        Files.delete(folder.resolve("whole"));
        for (int at = 4; at < whole.length; at += 97) {
            Path cut = folder.resolve("cut" + at + ".zip");
            Files.write(cut, Arrays.copyOf(whole, at));
            IntakeReport report = scan(cut);
            assertEquals(0, report.series().size(), "cut at " + at);
            assertEquals(1, report.unreadable().size(), "cut at " + at);
        }
    }

    @Test
    void damagedBytesNeverEscapeAsAnythingButAReason() throws Exception {
        byte[] whole = Files.readAllBytes(ZipFiles.write(folder.resolve("whole"), slices));
        Files.delete(folder.resolve("whole"));
        Random random = new Random(20260115);
        for (int trial = 0; trial < 300; trial++) {
            byte[] damaged = whole.clone();
            for (int n = 0; n < 4; n++) {
                damaged[4 + random.nextInt(damaged.length - 4)] = (byte) random.nextInt();
            }
            Path file = folder.resolve("damaged" + trial + ".zip");
            Files.write(file, damaged);
            IntakeReport report = scan(file);
            int said = report.unreadable().size()
                    + report.series().stream().mapToInt(s -> s.files().size()).sum();
            assertTrue(said > 0, "seed 20260115, trial " + trial);
        }
    }

    @Test
    void damageInsideAnEntryIsFoundByItsCheckSum() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices, ZipEntry.STORED);
        byte[] bytes = Files.readAllBytes(archive);
        // By hand: header of 30 bytes and name of 8, then the first file's preamble.
        bytes[50] ^= 1;
        Files.write(archive, bytes);
        IntakeReport report = scan(archive);
        assertEquals(11, report.series().get(0).files().size());
        assertTrue(report.unreadable().get(0).reason().startsWith("its check sum is wrong"));
    }

    @Test
    void clutterOfOtherSystemsIsNotUnpacked() {
        slices.put("__MACOSX/disc/._IM0", new byte[] {0, 5, 22, 7});
        slices.put("disc/.DS_Store", new byte[] {0, 0, 0, 1});
        IntakeReport report = scan(ZipFiles.write(folder.resolve("a.zip"), slices));
        assertEquals(List.of(), report.unreadable());
        assertEquals(12, report.series().get(0).files().size());
    }

    @Test
    void theFolderItIsUnpackedToIsTheUsersAloneAndUsedAgain() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        Path first = scan(archive).series().get(0).files().get(0).path().getParent();
        Path again = scan(archive).series().get(0).files().get(0).path().getParent();
        assertEquals(first, again);
        if (Files.getFileStore(first).supportsFileAttributeView("posix")) {
            assertEquals(
                    "rwx------",
                    java.nio.file.attribute.PosixFilePermissions.toString(Files.getPosixFilePermissions(first)));
        }
    }

    @Test
    void whatTheSystemClearedAwayIsUnpackedAgain() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        Files.delete(scan(archive).series().get(0).files().get(0).path());
        assertEquals(12, scan(archive).series().get(0).files().size());
    }

    @Test
    void nothingIsLeftWhenTheProgramHasEnded() throws Exception {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        Path temporary = Files.createDirectory(folder.resolve("temporary"));
        Process program = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Djava.io.tmpdir=" + temporary,
                        "-cp",
                        System.getProperty("java.class.path"),
                        "org.holdfast.Main",
                        "inspect",
                        archive.toString())
                .redirectErrorStream(true)
                .start();
        String words = new String(program.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
        assertEquals(0, program.waitFor(), words);
        assertTrue(words.contains("Stack of 12 slices"), words);
        try (Stream<Path> left = Files.list(temporary)) {
            assertEquals(
                    List.of(),
                    left.filter(path -> path.getFileName().toString().startsWith("holdfast-"))
                            .toList());
        }
    }

    @Test
    void unpackingCanBeStopped() {
        Path archive = ZipFiles.write(folder.resolve("a.zip"), slices);
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> Intake.scan(List.of(archive), cancelled));
    }

    private static IntakeReport scan(Path path) {
        return Intake.scan(List.of(path), Progress.NONE);
    }

    private IntakeReport scan(Path home, ZipLimits limits, String name) {
        return Intake.scan(List.of(ZipFiles.write(home.resolve(name), slices)), limits, Progress.NONE);
    }

    private static byte[] noise(int bytes) {
        byte[] out = new byte[bytes];
        new Random(1).nextBytes(out);
        return out;
    }
}
