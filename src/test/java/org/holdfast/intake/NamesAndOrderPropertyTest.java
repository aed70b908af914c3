package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/** Order, names and folders of files, and the numbers that scanners count them with, change nothing in the report. */
class NamesAndOrderPropertyTest {

    private static final List<String> ENDINGS = List.of("", ".dcm", ".DCM", ".1", " copy", "é");

    private static List<String> expected;

    @Property(tries = 25, seed = "20260115", edgeCases = EdgeCasesMode.NONE)
    void changeNothing(@ForAll long seed, @ForAll boolean oneNumberForAll, @ForAll boolean zipped) throws Exception {
        if (expected == null) {
            expected = described(new Random(1), false, false);
            // By hand: seventeen names, two of which are acquisitions under one UID.
            assertEquals(
                    16,
                    expected.stream().filter(line -> line.startsWith("series")).count());
            assertTrue(expected.stream().anyMatch(line -> line.contains("MEASURE")));
        }
        assertEquals(expected, described(new Random(seed), oneNumberForAll, zipped));
    }

    private static List<String> described(Random random, boolean oneNumberForAll, boolean zipped)
            throws IOException, DicomReadException {
        Path folder = Files.createTempDirectory("holdfast-names");
        try {
            write(folder, random, oneNumberForAll);
            return describe(Intake.scan(zipped ? List.of(zip(folder)) : List.of(folder), Progress.NONE));
        } finally {
            delete(folder);
        }
    }

    private static void write(Path folder, Random random, boolean oneNumberForAll) throws IOException {
        List<DataSet.Builder> files = MixedFolder.dataSets();
        Collections.shuffle(files, random);
        int n = 0;
        for (DataSet.Builder file : files) {
            Path home = folder;
            for (int depth = random.nextInt(3); depth > 0; depth--) {
                home = home.resolve("d" + random.nextInt(3));
            }
            Files.createDirectories(home);
            if (oneNumberForAll) {
                file.integers(Tag.INSTANCE_NUMBER, 1);
            }
            String ending = ENDINGS.get(random.nextInt(ENDINGS.size()));
            CtFiles.write(home, random.nextInt(1000) + "x" + n++ + ending, file.build());
        }
    }

    private static Path zip(Path folder) throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                entries.put(folder.relativize(file).toString(), Files.readAllBytes(file));
            }
        }
        return ZipFiles.write(folder.resolve("all.zip"), entries);
    }

    private static List<String> describe(IntakeReport report) throws DicomReadException {
        List<String> out = new ArrayList<>();
        for (Series s : report.series()) {
            out.add("series " + s.seriesInstanceUid() + " " + s.kind() + " "
                    + s.files().size());
            out.addAll(words(s.findings()));
            for (Stack stack : s.stacks()) {
                out.add("stack " + stack.where() + " "
                        + java.util.Arrays.toString(stack.grid().positionsMm()) + " " + values(stack));
            }
        }
        out.add("patients " + report.patientNumbers());
        for (FoundExam exam : report.exams()) {
            out.add("exam " + exam.patient() + " " + exam.date() + " " + exam.dateSource());
            out.addAll(words(exam.findings()));
            for (SeriesUse use : exam.uses()) {
                out.add(use.series().seriesInstanceUid() + " " + use.stack().map(Stack::stackNumber) + " " + use.name()
                        + " " + use.role() + " " + use.reasons());
            }
        }
        out.addAll(words(report.findings()));
        out.add("unreadable " + report.unreadable());
        return out;
    }

    /** Findings without the files that they are about. */
    private static List<String> words(List<Finding> findings) {
        return findings.stream().map(f -> f.code() + " " + f.text()).toList();
    }

    private static String values(Stack stack) throws DicomReadException {
        if (stack.whyNoHu().isPresent()) {
            return stack.whyNoHu().get();
        }
        HuVolume volume = VolumeLoader.load(stack, Progress.NONE).volume();
        StringBuilder out = new StringBuilder();
        for (int k = 0; k < stack.grid().slices(); k++) {
            out.append(volume.hu(1, 2, k)).append(' ');
        }
        return out.toString();
    }

    private static void delete(Path folder) throws IOException {
        List<Path> all;
        try (Stream<Path> files = Files.walk(folder)) {
            all = files.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path path : all) {
            Files.delete(path);
        }
    }
}
