package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.holdfast.app.Deidentification.Dates;
import org.holdfast.app.Deidentification.Request;
import org.holdfast.app.Deidentification.RiskyImages;
import org.holdfast.cases.CaseFiles;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.SeriesFacts;
import org.holdfast.phantom.SeriesWriter;
import org.holdfast.progress.Progress;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** De-identified files before independent tools: an IOD validator and a reader. */
@Tag("outside-tool")
final class DeidentificationOutsideToolTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource(Dates.class)
    void simulatedCtStaysValid(Dates dates) throws Exception {
        requireTool("dciodvfy", "dicom3tools");
        writePhantom();
        Path out = deidentified(folder.resolve("in"), dates);
        // Source: dicom3tools, dciodvfy: no line that starts with Error means that the object conforms.
        assertEquals(Set.of(), errors(folder.resolve("in/slice-0001.dcm")));
        assertEquals(Set.of(), errors(out.resolve("study-01/series-001/00001.dcm")));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "D_enhanced_ct/CT0012.not_fragmented_bot_jpeg_ls.80.dcm",
                "F_sr_seg/liver.dcm",
                "F_sr_seg/sr_document.dcm",
                "F_sr_seg/seg_image_ct_binary.dcm",
                "E_radiograph/dx_image.dcm",
                "G_parser/CT_small.dcm"
            })
    void realObjectsGetNoNewError(String name) throws Exception {
        requireTool("dciodvfy", "dicom3tools");
        Path file = CaseFiles.path(name);
        Set<String> before = errors(file);
        for (Dates dates : Dates.values()) {
            Set<String> after = errors(deidentified(file, dates).resolve("study-01/series-001/00001.dcm"));
            after.removeAll(before);
            assertEquals(Set.of(), after, name + ", dates " + dates);
        }
    }

    @Test
    void pydicomReadsTheSamePixels() throws Exception {
        requirePydicom();
        writePhantom();
        Path out = deidentified(folder.resolve("in"), Dates.SHIFTED);
        String script = "import sys,pydicom,hashlib;d=pydicom.dcmread(sys.argv[1]);"
                + "print(hashlib.sha256(d.pixel_array.tobytes()).hexdigest(),d.RescaleSlope,d.RescaleIntercept,"
                + "list(d.ImagePositionPatient),list(d.PixelSpacing))";
        for (int k = 1; k <= 3; k++) {
            String before = run(
                    "/usr/bin/python3",
                    "-c",
                    script,
                    folder.resolve("in/slice-000" + k + ".dcm").toString());
            String after = run(
                    "/usr/bin/python3",
                    "-c",
                    script,
                    out.resolve("study-01/series-001/0000" + k + ".dcm").toString());
            assertTrue(before.length() > 64, before);
            assertEquals(before, after);
        }
    }

    private void writePhantom() throws Exception {
        VolumeGrid grid = new VolumeGrid(
                24,
                20,
                0.5,
                0.5,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                IntStream.range(0, 3)
                        .mapToObj(k -> new PatientPoint(-6, -5, 0.6 * k))
                        .toList());
        PointSpread spread = new PointSpread(0.35, 0.4);
        ScanSettings settings = new ScanSettings(grid, spread, 10, 7, HuScale.CLIPPED_3071);
        SeriesFacts facts = new SeriesFacts(
                "TEST-01",
                "simulated study",
                "CT, bone 60",
                LocalDate.of(2024, 3, 14),
                "SIM BONE 60",
                120,
                spread.sliceThicknessMm(),
                25,
                HuScale.CLIPPED_3071,
                "org.holdfast.test/deidentify");
        SeriesWriter.write(
                folder.resolve("in"), ScanSimulator.scan(Scene.of(40), settings, Progress.NONE), facts, Progress.NONE);
    }

    private Path deidentified(Path in, Dates dates) throws Exception {
        Path out = folder.resolve("out-" + dates);
        Deidentification.run(
                new Request(in, out, "S-001", dates, RiskyImages.WRITE, Optional.of(folder.resolve("key"))),
                Progress.NONE);
        return out;
    }

    /** Lines of the validator that name an error, without the values in them. */
    private static Set<String> errors(Path file) throws Exception {
        return run("dciodvfy", file.toString())
                .lines()
                .filter(line -> line.startsWith("Error"))
                .map(line -> line.replaceAll(" = <[^>]*>", "").replaceAll("UID <[^>]*>", "UID"))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static void requireTool(String tool, String debianPackage) {
        boolean there = Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, tool)));
        Assumptions.assumeTrue(there, "skipped: " + tool + " of " + debianPackage + " is not installed");
    }

    private static void requirePydicom() throws Exception {
        boolean there = Files.isExecutable(Path.of("/usr/bin/python3"))
                && run("/usr/bin/python3", "-c", "import pydicom, numpy; print('there')")
                        .contains("there");
        Assumptions.assumeTrue(there, "skipped: python3-pydicom is not installed");
    }

    private static String run(String... command) throws Exception {
        Process process =
                new ProcessBuilder(List.of(command)).redirectErrorStream(true).start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        return output;
    }
}
