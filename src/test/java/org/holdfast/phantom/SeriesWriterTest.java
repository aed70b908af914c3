package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReader;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.intake.Intake;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class SeriesWriterTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({"CLIPPED_3071, 0", "EXTENDED_30710, 0", "EXTENDED_30710, 14"})
    void writesWhatIsReadBack(HuScale scale, double gantryDeg) throws Exception {
        HuVolume volume = scan(scale, gantryDeg);
        SeriesWriter.write(folder, volume, facts(scale), Progress.NONE);
        LoadedVolume read = VolumeLoader.load(
                Intake.scan(List.of(folder), Progress.NONE)
                        .series()
                        .get(0)
                        .stacks()
                        .get(0),
                Progress.NONE);
        VolumeGrid there = read.volume().grid();
        double nanometre = 1e-6;
        for (int k = 0; k < 9; k++) {
            assertEquals(0, volume.grid().sliceOrigin(k).distanceTo(there.sliceOrigin(k)), 2 * nanometre);
            for (int j = 0; j < 20; j++) {
                for (int i = 0; i < 24; i++) {
                    assertEquals(volume.hu(i, j, k), read.volume().hu(i, j, k));
                }
            }
        }
        assertEquals(gantryDeg, there.shearDeg(), 1e-4);
        // By hand: HU below the surface of the metal, rounded and clipped.
        assertEquals(scale == HuScale.CLIPPED_3071 ? 3071 : 7500, read.volume().hu(12, 10, 0));
        assertEquals("SIM BONE 60", read.acquisition().kernel());
        // By hand: 2.3548 · 0.40 mm.
        assertEquals(0.942, read.acquisition().sliceThicknessMm().orElseThrow(), 5e-4);
    }

    @Test
    void waterAndAirKeepTheirDefinition() throws Exception {
        // Source: DICOM PS3.3, section C.8.2.1: CT numbers in HU, water 0 and air −1000.
        VolumeGrid grid = Grids.upright(8, 8, 4, 0.5, 0.5, 0.5);
        for (HuScale scale : HuScale.values()) {
            for (int hu : new int[] {0, -1000}) {
                Path own = folder.resolve(scale + "" + hu);
                ScanSettings settings = ScanSimulatorTest.settings(grid, new PointSpread(0.35, 0.4), 0, scale);
                SeriesWriter.write(
                        own, ScanSimulator.scan(Scene.of(hu), settings, Progress.NONE), facts(scale), Progress.NONE);
                DataSet slice = DicomReader.read(own.resolve("slice-0001.dcm")).withPixels();
                byte[] pixels = slice.bytes(org.holdfast.dicom.Tag.PIXEL_DATA).orElseThrow();
                int stored = pixels[0] & 0xFF | (pixels[1] & 0xFF) << 8;
                double slope =
                        slice.decimal(org.holdfast.dicom.Tag.RESCALE_SLOPE).orElseThrow();
                double intercept =
                        slice.decimal(org.holdfast.dicom.Tag.RESCALE_INTERCEPT).orElseThrow();
                assertEquals(hu, slope * stored + intercept);
            }
        }
    }

    @Test
    void writesSameBytesTwice() throws Exception {
        HuVolume volume = scan(HuScale.CLIPPED_3071, 0);
        SeriesWriter.write(folder.resolve("a"), volume, facts(HuScale.CLIPPED_3071), Progress.NONE);
        SeriesWriter.write(
                folder.resolve("b"), scan(HuScale.CLIPPED_3071, 0), facts(HuScale.CLIPPED_3071), Progress.NONE);
        for (int k = 1; k <= 9; k++) {
            String name = "slice-000" + k + ".dcm";
            assertArrayEquals(
                    Files.readAllBytes(folder.resolve("a").resolve(name)),
                    Files.readAllBytes(folder.resolve("b").resolve(name)));
        }
    }

    @Test
    void saysThatItIsSimulated() throws Exception {
        SeriesWriter.write(folder, scan(HuScale.CLIPPED_3071, 0), facts(HuScale.CLIPPED_3071), Progress.NONE);
        DataSet slice = DicomReader.read(folder.resolve("slice-0003.dcm")).dataSet();
        assertEquals(
                "Holdfast simulator",
                slice.string(org.holdfast.dicom.Tag.MANUFACTURER).orElseThrow());
        assertTrue(slice.string(org.holdfast.dicom.Tag.IMAGE_COMMENTS)
                .orElseThrow()
                .contains("Invented"));
        assertTrue(slice.string(org.holdfast.dicom.Tag.SERIES_DESCRIPTION)
                .orElseThrow()
                .startsWith("simulated"));
    }

    @Test
    void refusesVolumeWithHoles() {
        VolumeGrid grid = Grids.upright(2, 2, 2, 1, 1, 1);
        short[][] hu = {{0, 0, 0, 0}, {0, -2000, 0, 0}};
        HuVolume holed = HuVolume.ofHu(grid, hu);
        assertThrows(
                IllegalArgumentException.class,
                () -> SeriesWriter.write(folder, holed, facts(HuScale.CLIPPED_3071), Progress.NONE));
    }

    @Tag("outside-tool")
    @ParameterizedTest
    @CsvSource({"CLIPPED_3071, 0", "EXTENDED_30710, 0", "EXTENDED_30710, 14"})
    void conformsToCtImageDefinition(HuScale scale, double gantryDeg) throws Exception {
        requireDciodvfy();
        SeriesWriter.write(folder, scan(scale, gantryDeg), facts(scale), Progress.NONE);
        assertConforms(folder.resolve("slice-0001.dcm"));
        assertConforms(folder.resolve("slice-0009.dcm"));
    }

    /** Commas as decimal points, Arabic, Thai and Devanagari digits, and the dotless i of Turkish. */
    @ParameterizedTest
    @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "th-TH-u-nu-thai", "hi-IN-u-nu-deva", "tr-TR"})
    void bytesDoNotFollowTheLocale(String language) throws Exception {
        HuVolume volume = scan(HuScale.EXTENDED_30710, 14);
        SeriesWriter.write(folder.resolve("root"), volume, facts(HuScale.EXTENDED_30710), Progress.NONE);
        Path own = folder.resolve("own");
        writeIn(language, own, volume);
        for (int k = 1; k <= 9; k++) {
            String name = "slice-000" + k + ".dcm";
            assertArrayEquals(
                    Files.readAllBytes(folder.resolve("root").resolve(name)), Files.readAllBytes(own.resolve(name)));
        }
    }

    @Tag("outside-tool")
    @ParameterizedTest
    @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "th-TH-u-nu-thai"})
    void conformsInEveryLocale(String language) throws Exception {
        requireDciodvfy();
        writeIn(language, folder, scan(HuScale.EXTENDED_30710, 14));
        assertConforms(folder.resolve("slice-0005.dcm"));
    }

    private static void writeIn(String language, Path folder, HuVolume volume) throws Exception {
        Locale before = Locale.getDefault();
        Locale.setDefault(Locale.forLanguageTag(language));
        try {
            SeriesWriter.write(folder, volume, facts(HuScale.EXTENDED_30710), Progress.NONE);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Tag("outside-tool")
    @ParameterizedTest
    @EnumSource(DemoStage.class)
    void everyExamOfTheDemoConforms(DemoStage stage) throws Exception {
        requireDciodvfy();
        // Headers are those of the exam, voxels those of a few slices of its own grid.
        DemoScan scan = DemoScan.of(stage, DemoSeries.Size.SMALL);
        VolumeGrid grid = scan.settings().grid();
        VolumeGrid few = new VolumeGrid(
                grid.columns(),
                grid.rows(),
                grid.columnSpacingMm(),
                grid.rowSpacingMm(),
                grid.rowDirection(),
                grid.columnDirection(),
                List.of(grid.sliceOrigin(40), grid.sliceOrigin(41)));
        ScanSettings settings = new ScanSettings(
                few,
                scan.settings().pointSpread(),
                scan.settings().noiseSdHu(),
                scan.settings().seed(),
                scan.settings().scale());
        HuVolume volume = ScanSimulator.scan(DemoScene.of(stage).moved(scan.sceneToExam()), settings, Progress.NONE);
        SeriesWriter.write(folder, volume, new DemoSeries(DemoSeries.Size.SMALL).facts(stage), Progress.NONE);
        assertConforms(folder.resolve("slice-0001.dcm"));
    }

    private static void assertConforms(Path file) throws Exception {
        Process process = new ProcessBuilder("dciodvfy", file.toString())
                .redirectErrorStream(true)
                .start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        assertTrue(output.contains("CTImage"), output);
        assertFalse(output.lines().anyMatch(line -> line.startsWith("Error")), output);
    }

    private static void requireDciodvfy() {
        boolean there =
                Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, "dciodvfy")));
        Assumptions.assumeTrue(there, "skipped: dciodvfy of dicom3tools is not installed");
    }

    private static SeriesFacts facts(HuScale scale) {
        return new SeriesFacts(
                "TEST-01",
                "simulated study",
                "CT, bone 60",
                LocalDate.of(2024, 3, 14),
                "SIM BONE 60",
                120,
                new PointSpread(0.35, 0.4).sliceThicknessMm(),
                25,
                scale,
                "org.holdfast.test/" + scale);
    }

    private static HuVolume scan(HuScale scale, double gantryDeg) {
        VolumeGrid grid = Grids.tilted(24, 20, 9, 0.47, 0.47, 0.6, gantryDeg);
        HalfSpace metal = new HalfSpace(new PatientPoint(0, 0, 1), PatientVector.CRANIAL);
        Scene scene = Scene.of(-1000).with(Body.of("metal", metal, 7500));
        return ScanSimulator.scan(
                scene, ScanSimulatorTest.settings(grid, new PointSpread(0.35, 0.4), 0, scale), Progress.NONE);
    }
}
