package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReader;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class FilmSimulatorTest {

    /** Nearly without noise. */
    private static final FilmSettings QUIET = new FilmSettings(1150, 1000, 0.25, 1e12, 5);

    @TempDir
    Path folder;

    /** Air with cubes of metal of 2 mm, centred at the given voxels of a grid of 1 mm round the origin. */
    private static HuVolume cubes(int[]... centres) {
        int n = 61;
        VolumeGrid grid = Grids.tilted(n, n, n, 1, 1, 1, 0);
        short[][] hu = new short[n][n * n];
        for (short[] slice : hu) {
            java.util.Arrays.fill(slice, (short) -1000);
        }
        for (int[] c : centres) {
            for (int k = -1; k <= 1; k++) {
                for (int j = -1; j <= 1; j++) {
                    for (int i = -1; i <= 1; i++) {
                        hu[c[2] + k][c[0] + i + n * (c[1] + j)] = 20000;
                    }
                }
            }
        }
        return HuVolume.ofHu(grid, hu);
    }

    private static Film film(HuVolume volume, FilmView view) {
        PatientPoint middle =
                volume.grid().sliceOrigin(30).along(PatientVector.LEFT, 30).along(PatientVector.POSTERIOR, 30);
        return FilmSimulator.take(volume, middle, view, 80, 80, QUIET, Progress.NONE);
    }

    /** Centre of weight of the values in a half of the film, pixels. */
    private static double[] centre(Film film, int fromColumn, int toColumn) {
        double sum = 0;
        double x = 0;
        double y = 0;
        for (int row = 0; row < film.rows(); row++) {
            for (int column = fromColumn; column < toColumn; column++) {
                double weight = Math.max(0, film.stored()[row * film.columns() + column] - 20);
                sum += weight;
                x += weight * column;
                y += weight * row;
            }
        }
        return new double[] {x / sum, y / sum};
    }

    @Test
    void lengthsInTheMiddlePlaneAreMagnified() {
        // Source: measurement definitions, section 7: SID 1150, SOD 1000: 20.0 mm there are 23.0 mm at the detector
        Film film = film(cubes(new int[] {20, 30, 30}, new int[] {40, 30, 30}), FilmView.FRONT);
        double[] left = centre(film, 0, film.columns() / 2);
        double[] right = centre(film, film.columns() / 2, film.columns());
        // A tenth of a pixel: the cubes' shadows are some ten pixels wide.
        assertEquals(23.0, (right[0] - left[0]) * film.pixelMm(), 0.025);
        assertEquals(left[1], right[1], 0.1);
    }

    @Test
    void theFrontViewShowsLeftAtTheRightAndCranialAbove() {
        Film film = film(cubes(new int[] {45, 30, 50}), FilmView.FRONT);
        double[] at = centre(film, 0, film.columns());
        // By hand: 15 mm to the left and 20 mm up, 1.15 times that over 0.25 mm a pixel, from the middle pixel 159.5
        assertEquals(159.5 + 15 * 1.15 / 0.25, at[0], 0.5);
        assertEquals(159.5 - 20 * 1.15 / 0.25, at[1], 0.5);
    }

    @Test
    void theSideViewShowsTheBackAtTheRight() {
        Film film = film(cubes(new int[] {30, 45, 30}), FilmView.SIDE);
        double[] at = centre(film, 0, film.columns());
        // By hand: 15 mm to the back, magnified by 1.15
        assertEquals(159.5 + 15 * 1.15 / 0.25, at[0], 0.5);
        assertEquals(159.5, at[1], 0.5);
    }

    @Test
    void weakeningAddsUpAlongTheRay() {
        Film one = film(cubes(new int[] {30, 30, 30}), FilmView.FRONT);
        Film two = film(cubes(new int[] {30, 20, 30}, new int[] {30, 40, 30}), FilmView.FRONT);
        int middle = 160 * one.columns() + 160;
        // One step of the ray through a cube of 3 voxels with sloping edges is up to a quarter of it.
        assertEquals(2.0, two.stored()[middle] / (double) one.stored()[middle], 0.3);
        assertTrue(one.stored()[middle] > 100);
    }

    @Test
    void theSameSeedGivesTheSameFilm() {
        HuVolume volume = cubes(new int[] {30, 30, 30});
        FilmSettings noisy = new FilmSettings(1150, 1000, 0.5, 1e4, 9);
        PatientPoint middle = volume.grid().sliceOrigin(30);
        Film a = FilmSimulator.take(volume, middle, FilmView.FRONT, 60, 60, noisy, Progress.NONE);
        Film b = FilmSimulator.take(volume, middle, FilmView.FRONT, 60, 60, noisy, Progress.NONE);
        assertArrayEquals(a.stored(), b.stored());
    }

    @ParameterizedTest
    @EnumSource(FilmView.class)
    @Tag("outside-tool")
    void conformsToItsDefinition(FilmView view) throws Exception {
        boolean there =
                Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, "dciodvfy")));
        Assumptions.assumeTrue(there, "skipped: dciodvfy of dicom3tools is not installed");
        Path file = write(view);
        Process process = new ProcessBuilder("dciodvfy", file.toString())
                .redirectErrorStream(true)
                .start();
        List<String> said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                .lines()
                .toList();
        process.waitFor();
        assertTrue(said.contains("DXImageForPresentation"), said.toString());
        assertFalse(said.stream().anyMatch(line -> line.startsWith("Error")), said.toString());
    }

    private Path write(FilmView view) throws Exception {
        Film film = film(cubes(new int[] {30, 30, 30}), view);
        Path file = folder.resolve("film.dcm");
        FilmFacts facts = new FilmFacts("TEST-01", "simulated X-ray", LocalDate.of(2025, 1, 2), "film test");
        Locale usual = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            FilmWriter.write(file, film, view, QUIET, facts, 1);
        } finally {
            Locale.setDefault(usual);
        }
        return file;
    }

    @Test
    void theHeaderTellsDetectorPixelAndMagnification() throws Exception {
        DataSet d = DicomReader.read(write(FilmView.FRONT)).dataSet();
        assertArrayEquals(new double[] {0.25, 0.25}, d.decimals(org.holdfast.dicom.Tag.IMAGER_PIXEL_SPACING));
        // By hand: 1150 / 1000
        assertEquals(
                1.15,
                d.decimal(org.holdfast.dicom.Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION)
                        .getAsDouble(),
                1e-12);
        assertFalse(d.contains(org.holdfast.dicom.Tag.PIXEL_SPACING));
    }
}
