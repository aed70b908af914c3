package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What makes a stack, what does not, and that names and order decide nothing. */
class IntakeTest {

    @TempDir
    Path folder;

    @Test
    void sortsByPositionWhateverNamesAndInstanceNumbersSay() {
        List<Integer> order = List.of(3, 0, 4, 1, 2);
        for (int at = 0; at < order.size(); at++) {
            int k = order.get(at);
            CtFiles.write(
                    folder,
                    "file" + at,
                    CtFiles.slice("s" + k, -2.5 * k, k)
                            .integers(Tag.INSTANCE_NUMBER, 1)
                            .build());
        }
        Stack stack = onlyStack();
        // By hand: five slices 2.5 mm apart from −10 to 0 mm.
        assertEquals(5, stack.grid().slices());
        assertEquals(-10, stack.grid().positionMm(0), 1e-12);
        assertEquals(2.5, stack.grid().pitchMm().orElseThrow(), 1e-12);
        assertEquals(0, stack.grid().sliceOrigin(4).z(), 1e-12);
    }

    @Test
    void resultDoesNotDependOnTheOrderOfFiles() throws Exception {
        long seed = 20260115;
        Path original = Files.createDirectory(folder.resolve("original"));
        CtFiles.writeStack(original, "a", 6, 1.25, b -> b.integers(Tag.ACQUISITION_NUMBER, 1));
        CtFiles.writeStack(original, "b", 6, 1.25, b -> b.integers(Tag.ACQUISITION_NUMBER, 2)
                .string(Tag.CONVOLUTION_KERNEL, "B70"));
        CtFiles.writeStack(original, "c", 6, 1.25, b -> b.integers(Tag.ACQUISITION_NUMBER, 3)
                .words(Tag.PIXEL_DATA, CtFiles.filled(7)));
        List<Path> files = new ArrayList<>();
        try (Stream<Path> all = Files.list(original)) {
            all.forEach(files::add);
        }
        List<String> first = null;
        Random random = new Random(seed);
        for (int trial = 0; trial < 20; trial++) {
            Collections.shuffle(files, random);
            Path renamed = Files.createDirectory(folder.resolve("renamed" + trial));
            for (int i = 0; i < files.size(); i++) {
                Files.copy(files.get(i), renamed.resolve("x" + i));
            }
            IntakeReport report = Intake.scan(List.of(renamed), Progress.NONE);
            List<String> described = new ArrayList<>();
            for (Stack stack : report.series().get(0).stacks()) {
                described.add(stack.stackNumber() + " " + stack.grid().slices() + " " + SeriesHash.of(stack));
            }
            first = first == null ? described : first;
            assertEquals(first, described, "seed " + seed + ", trial " + trial);
        }
        // By hand: B70 is one stack by its kernel; the two of B30 repeat positions and differ by AcquisitionNumber.
        assertEquals(3, first.size());
    }

    @ParameterizedTest
    @ValueSource(strings = {"exposure", "current", "thickness", "acquisition"})
    void attributesThatVaryAlongTheStackDoNotSplitIt(String attribute) {
        for (int k = 0; k < 6; k++) {
            DataSet.Builder b = CtFiles.slice("s" + k, k, 0);
            switch (attribute) {
                case "exposure" -> b.integers(Tag.EXPOSURE, 100 + k);
                case "current" -> b.integers(Tag.X_RAY_TUBE_CURRENT, 300 - k);
                case "thickness" -> b.decimals(Tag.SLICE_THICKNESS, k < 3 ? 1 : 2);
                default -> b.integers(Tag.ACQUISITION_NUMBER, k / 2);
            }
            CtFiles.write(folder, "s" + k, b.build());
        }
        assertEquals(6, onlyStack().grid().slices());
    }

    @Test
    void interleavedAcquisitionsAreToldApart() {
        for (int k = 0; k < 5; k++) {
            CtFiles.write(
                    folder,
                    "a" + k,
                    CtFiles.slice("a" + k, 3 * k, 0)
                            .integers(Tag.ACQUISITION_NUMBER, 1)
                            .build());
            CtFiles.write(
                    folder,
                    "b" + k,
                    CtFiles.slice("b" + k, 3 * k + 1, 0)
                            .integers(Tag.ACQUISITION_NUMBER, 2)
                            .build());
        }
        Series series = onlySeries();
        assertEquals(2, series.stacks().size());
        series.stacks().forEach(s -> assertEquals(3, s.grid().pitchMm().orElseThrow(), 1e-12));
        assertTrue(codes(series).contains("SPLIT_BY_ATTRIBUTE"));
    }

    @Test
    void repeatedPositionsWithoutAnyDifferenceAreNoVolume() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        for (int k = 0; k < 3; k++) {
            CtFiles.write(folder, "b" + k, CtFiles.slice("b" + k, k, 77).build());
        }
        Series series = onlySeries();
        assertEquals(List.of(), series.stacks());
        assertEquals(SeriesKind.IMAGE, series.kind());
        assertTrue(codes(series).contains("SEVERAL_IMAGES_AT_ONE_POSITION"));
    }

    @Test
    void copiesAreDroppedWithAFinding() {
        CtFiles.writeStack(folder, "a", 4, 1, b -> b);
        CtFiles.write(folder, "same file again", CtFiles.slice("a2", 2, 1002).build());
        CtFiles.write(
                folder, "same pixels", CtFiles.slice("other instance", 3, 1003).build());
        Series series = onlySeries();
        assertEquals(4, onlyStack().grid().slices());
        assertEquals(6, series.files().size());
        assertTrue(codes(series).contains("DUPLICATE_DROPPED"));
    }

    @Test
    void namesDoNotChooseAmongCopies() throws Exception {
        CtFiles.writeStack(folder, "a", 2, 1, b -> b);
        DataSet.Builder copy = CtFiles.slice("a1", 1, 1001).string(Tag.PATIENT_COMMENTS, "another header");
        CtFiles.write(folder, "z", copy.build());
        String before = SeriesHash.of(onlyStack());
        Files.move(folder.resolve("a1"), folder.resolve("zz"));
        Files.move(folder.resolve("z"), folder.resolve("a1"));
        assertEquals(before, SeriesHash.of(onlyStack()));
    }

    @Test
    void oneInstanceUidForDifferentPositionsKeepsAll() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b.string(Tag.SOP_INSTANCE_UID, Uid.fromName("one for all")));
        assertEquals(3, onlyStack().grid().slices());
        assertTrue(codes(onlySeries()).contains("SAME_INSTANCE_OTHER_POSITION"));
    }

    @Test
    void slicesOfAnotherMatrixSpacingOrientationOrKernelMakeTheirOwnStack() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        CtFiles.writeStack(folder, "b", 3, 1, b -> b.decimals(Tag.PIXEL_SPACING, 0.7, 0.6));
        CtFiles.writeStack(folder, "c", 3, 1, b -> b.string(Tag.CONVOLUTION_KERNEL, "B70"));
        CtFiles.writeStack(folder, "d", 3, 1, b -> b.integers(Tag.ROWS, 4).integers(Tag.COLUMNS, 3));
        CtFiles.writeStack(folder, "e", 3, 1, b -> b.decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 0.8, 0.6));
        Series series = onlySeries();
        assertEquals(5, series.stacks().size());
        series.stacks().forEach(s -> assertEquals(3, s.grid().slices()));
    }

    @Test
    void orientationsWithinAThousandthAreOneStack() {
        // By hand: cosines 1 − 2e-7 and 6e-4: off by less than 1e-3.
        CtFiles.writeStack(folder, "a", 2, 1, b -> b);
        CtFiles.write(
                folder,
                "b",
                CtFiles.slice("b", 2, 0)
                        .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 6e-4, 0, -6e-4, 1, 0)
                        .build());
        assertEquals(3, onlyStack().grid().slices());
    }

    @Test
    void leaningStackIsShearedAndKeepsItsTrack() {
        for (int k = 0; k < 4; k++) {
            CtFiles.write(
                    folder,
                    "s" + k,
                    CtFiles.slice("s" + k, 0, 0)
                            .decimals(Tag.IMAGE_POSITION_PATIENT, 0, k, 2 * k)
                            .decimals(Tag.GANTRY_DETECTOR_TILT, -40)
                            .build());
        }
        Stack stack = onlyStack();
        // By hand: the track (0, 1, 2) leans by atan(1/2) = 26.565° against z, whatever GantryDetectorTilt says.
        assertEquals(26.565051177, stack.grid().shearDeg(), 1e-8);
        assertEquals(2, stack.grid().pitchMm().orElseThrow(), 1e-12);
        assertTrue(stack.findings().stream().anyMatch(f -> f.code().equals("SHEARED")));
    }

    @Test
    void holeAndIrregularStepAreNamed() {
        double[] z = {0, 1, 2, 5, 6, 7};
        for (int k = 0; k < z.length; k++) {
            CtFiles.write(folder, "s" + k, CtFiles.slice("s" + k, z[k], 0).build());
        }
        Stack stack = onlyStack();
        assertEquals(List.of(2), stack.grid().holesAfter());
        String hole = stack.findings().stream()
                .filter(f -> f.code().equals("MISSING_SLICES"))
                .findFirst()
                .orElseThrow()
                .text();
        // By hand: 1-based slices 3 (2 mm) and 4 (5 mm).
        assertTrue(hole.contains("between slice 3 and slice 4") && hole.contains("3.000 mm"), hole);
    }

    @Test
    void localizersRenderingsCapturesAndColourStayOutOfStacks() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        CtFiles.write(
                folder,
                "scout",
                CtFiles.slice("scout", 9, 0)
                        .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "LOCALIZER")
                        .build());
        CtFiles.write(
                folder,
                "rendering",
                CtFiles.slice("rendering", 9, 0)
                        .string(Tag.IMAGE_TYPE, "DERIVED", "SECONDARY", "3D")
                        .build());
        CtFiles.write(
                folder,
                "capture",
                CtFiles.slice("capture", 9, 0)
                        .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                        .build());
        CtFiles.write(
                folder,
                "colour",
                CtFiles.slice("colour", 9, 0)
                        .string(Tag.PHOTOMETRIC_INTERPRETATION, "RGB")
                        .build());
        CtFiles.write(
                folder,
                "nowhere",
                CtFiles.slice("nowhere", 9, 0)
                        .remove(Tag.IMAGE_POSITION_PATIENT)
                        .build());
        CtFiles.write(
                folder,
                "frames",
                CtFiles.slice("frames", 9, 0).integers(Tag.NUMBER_OF_FRAMES, 3).build());
        assertEquals(3, onlyStack().grid().slices());
        assertTrue(codes(onlySeries())
                .containsAll(List.of(
                        "LOCALIZER",
                        "RENDERED_IMAGE",
                        "SCREEN_CAPTURE",
                        "COLOUR_IMAGE",
                        "NO_GEOMETRY",
                        "FRAMES_NOT_DESCRIBED")));
    }

    @Test
    void twoPatientsUnderOneSeriesAreAnError() {
        CtFiles.writeStack(folder, "a", 2, 1, b -> b.string(Tag.PATIENT_ID, "A"));
        CtFiles.write(
                folder,
                "b",
                CtFiles.slice("b", 2, 0).string(Tag.PATIENT_ID, "B").build());
        IntakeReport report = Intake.scan(List.of(folder), Progress.NONE);
        // By hand: two slices of one patient, one of the other; never one stack.
        assertEquals(
                List.of(2, 1),
                report.series().stream().map(s -> s.files().size()).toList());
        report.series().forEach(s -> assertTrue(codes(s).contains("SEVERAL_PATIENTS")));
        assertEquals(List.of(1, 2), report.patientNumbers());
    }

    @Test
    void badFilesAreListedAndStopNothing() throws IOException {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        Files.writeString(folder.resolve("notes.txt"), "not an image");
        Files.createFile(folder.resolve("empty"));
        byte[] whole = Files.readAllBytes(folder.resolve("a0"));
        Files.write(folder.resolve("torn"), java.util.Arrays.copyOf(whole, 400));
        IntakeReport report = Intake.scan(List.of(folder, folder.resolve("absent")), Progress.NONE);
        assertEquals(1, report.series().size());
        assertEquals(
                List.of("absent", "empty", "notes.txt", "torn"),
                report.unreadable().stream()
                        .map(u -> Path.of(u.path()).getFileName().toString())
                        .sorted()
                        .toList());
        report.unreadable().forEach(u -> assertTrue(u.reason().length() > 10, u.toString()));
    }

    @Test
    void fileReachedTwiceCountsOnce() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        IntakeReport report = Intake.scan(List.of(folder, folder.resolve("a1")), Progress.NONE);
        assertEquals(3, report.series().get(0).files().size());
    }

    @Test
    void stopsWhenCancelled() {
        CtFiles.writeStack(folder, "a", 3, 1, b -> b);
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> Intake.scan(List.of(folder), cancelled));
        Stack stack = onlyStack();
        assertThrows(CancellationException.class, () -> VolumeLoader.load(stack, cancelled));
    }

    private Series onlySeries() {
        IntakeReport report = Intake.scan(List.of(folder), Progress.NONE);
        assertEquals(1, report.series().size());
        return report.series().get(0);
    }

    private Stack onlyStack() {
        Series series = onlySeries();
        assertEquals(1, series.stacks().size(), series.findings().toString());
        return series.stacks().get(0);
    }

    private static java.util.Set<String> codes(Series series) {
        return series.findings().stream().map(f -> f.code()).collect(Collectors.toSet());
    }
}
