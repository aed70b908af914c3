package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.Locale;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.LookupTable;
import org.holdfast.volume.ModalityTransform;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.PixelScale.Kind;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;
import org.junit.jupiter.api.Test;

/** Real radiographs against the numbers of the table beside them, which two independent toolkits agree on. */
class RadiographCasesTest {

    /** Means are printed to four decimals; values are kept as floats. */
    private static final double FOUR_DECIMALS = 2e-4;

    private static ImageHeader header(String file) throws DicomReadException {
        return ImageHeader.of(
                DicomReader.read(CaseFiles.path(file)), CaseFiles.path(file).toString());
    }

    private static LoadedRadiograph load(String file) throws DicomReadException {
        ImageHeader header = header(file);
        RadiographLoader.whyNot(header).ifPresent(why -> assumeTrue(false, "skipped: " + file + ": " + why));
        return RadiographLoader.load(header, Progress.NONE);
    }

    private static void assertStored(int min, int max, double mean, Radiograph film) {
        long sum = 0;
        int least = Integer.MAX_VALUE;
        int most = Integer.MIN_VALUE;
        for (int j = 0; j < film.facts().rows(); j++) {
            for (int i = 0; i < film.facts().columns(); i++) {
                int stored = film.stored(i, j);
                sum += stored;
                least = Math.min(least, stored);
                most = Math.max(most, stored);
            }
        }
        assertEquals(min, least);
        assertEquals(max, most);
        double count = (double) film.facts().rows() * film.facts().columns();
        assertEquals(mean, sum / count, FOUR_DECIMALS);
    }

    private static void assertScale(Kind kind, double rowMm, double columnMm, Radiograph film) {
        PixelScale scale = film.facts().scale();
        assertEquals(kind, scale.kind());
        assertEquals(rowMm, scale.rowMm(), 1e-12);
        assertEquals(columnMm, scale.columnMm(), 1e-12);
    }

    @Test
    void spineWithALineAndAtTheDetectorOnly() throws Exception {
        Radiograph film = load("E_radiograph/6154").film();
        // Source: MANIFEST.tsv, this file: raw 1994..2802 mean 2523.7930; slope 0.684, intercept 200: 1563.9..2116.57,
        // mean 1926.2744
        assertStored(1994, 2802, 2523.7930, film);
        assertEquals(1563.9, film.statistics().quantile(0), 5e-2);
        assertEquals(2116.57, film.statistics().quantile(1), 5e-3);
        double sum = 0;
        for (int n = 0; n < 256; n++) {
            sum += film.value(n % 16, n / 16);
        }
        assertEquals(1926.2744, sum / 256, FOUR_DECIMALS);
        assertTrue(film.facts().isInverted());
        assertScale(Kind.DETECTOR, 0.1, 0.1, film);
    }

    @Test
    void chestOfTheOlderStandardHasNoMillimetres() throws Exception {
        Radiograph film = load("E_radiograph/CR-MONO1-10-chest").film();
        // Source: MANIFEST.tsv, this file
        assertStored(0, 979, 501.8573, film);
        assertEquals(Kind.NONE, film.facts().scale().kind());
        assertEquals("PA", film.facts().orientation().viewPosition());
    }

    @Test
    void pixelsThatAreNotSquareAndAnInversionSaidTwice() throws Exception {
        Radiograph film = load("E_radiograph/dx_image.dcm").film();
        // Source: MANIFEST.tsv, this file: row spacing 1.2, column spacing 1.2012, MONOCHROME1
        assertStored(5, 255, 165.8349, film);
        assertScale(Kind.DETECTOR, 1.2, 1.201199999999, film);
        assertEquals(1.2 / 1.2012, film.facts().pixelAspect(), 1e-9);
        VoiTransform window = film.opening().orElseThrow();
        // By hand: window 128 / 256, LINEAR: (5 − 127.5) / 255 + 0.5 = 5 / 255, inverted 250 / 255
        assertEquals(250 / 255.0, film.brightness(5, window), 1e-12);
        assertEquals("L", film.facts().orientation().laterality());
    }

    @Test
    void modalityTableBesideALine() throws Exception {
        ImageHeader header = header("E_radiograph/CR-ModalitySequenceLUT.dcm");
        FilmHeader read = new FilmHeader(DicomReader.read(header.path()).dataSet(), "");
        FilmFacts facts = read.facts(header.pixels().orElseThrow().layout(), header.scale(), header.lossy());
        LookupTable table = ((ModalityTransform.Table) facts.modality()).table();
        // Source: dcmdump of this file: LUTDescriptor 1024\0\16, LUTData 0000\0000\0001\0002\0002\0003\0004
        assertEquals(1024, table.size());
        assertEquals(16, table.bits());
        assertEquals(4, table.entry(6));
        assertTrue(FilmFiles.codes(read.findings()).contains("MODALITY_TABLE_AND_LINE"));
        assertEquals(Kind.DETECTOR, header.scale().kind());
    }

    @Test
    void compressedTableFilm() throws Exception {
        Radiograph film = load("E_radiograph/CR-ModalitySequenceLUT.dcm").film();
        // Source: MANIFEST.tsv, this file
        assertStored(0, 1023, 711.1879, film);
    }

    @Test
    void valuesOf16BitsAndAWindowBesideThem() throws Exception {
        LoadedRadiograph loaded = load("E_radiograph/JPEG2KLossless_1s_1f_u_16_16.dcm");
        // Source: MANIFEST.tsv, this file: 32744..65535, only ImagerPixelSpacing 0.4
        assertStored(32_744, 65_535, 37_573.5084, loaded.film());
        assertScale(Kind.DETECTOR, 0.4, 0.4, loaded.film());
        // By hand: the file's window ends at 2725 + 2655, below the least value: all white
        assertTrue(FilmFiles.codes(loaded.findings()).contains("WINDOW_SHOWS_NOTHING"));
    }

    @Test
    void tableOfSignedInputs() throws Exception {
        ImageHeader header = header("H_bits/mlut_18.dcm");
        FilmFacts facts = new FilmHeader(DicomReader.read(header.path()).dataSet(), "")
                .facts(header.pixels().orElseThrow().layout(), header.scale(), header.lossy());
        // Source: dcmdump of this file: LUTDescriptor 4096\-2048\16, LUTData 0\16\32
        assertEquals(0, facts.modality().apply(-2048));
        assertEquals(16, facts.modality().apply(-2047));
        // Computed: pydicom 2.3.1, LUTData[2048], LUTData[4095]
        assertEquals(32_776, facts.modality().apply(0));
        assertEquals(65_535, facts.modality().apply(2047));
        assertTrue(facts.format().signed());
    }

    @Test
    void everyRadiographOfTheFolderIsShownOrSaysWhyNot() throws Exception {
        int shown = 0;
        for (Series series : Intake.scan(java.util.List.of(CaseFiles.path("E_radiograph")), Progress.NONE)
                .series()) {
            assertEquals(SeriesKind.RADIOGRAPH, series.kind());
            for (ImageHeader file : series.files()) {
                if (RadiographLoader.whyNot(file).isEmpty()) {
                    Radiograph film = RadiographLoader.load(file, Progress.NONE).film();
                    double middle = film.brightness(
                            film.statistics().quantile(0.5), film.opening().orElseThrow());
                    assertTrue(
                            middle > 0 && middle < 1,
                            String.format(Locale.ROOT, "%s opens at %.3f", file.path(), middle));
                    shown++;
                }
            }
        }
        // By hand: three of the five are uncompressed.
        assertTrue(shown >= 3, shown + " shown");
    }
}
