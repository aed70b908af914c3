package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Vr;
import org.holdfast.progress.Progress;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.FilmOrientation.View;
import org.holdfast.volume.ModalityTransform;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;
import org.holdfast.volume.VoiTransform.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FilmHeaderTest {

    @TempDir
    private Path folder;

    private RadiographFile read(DataSet.Builder film) {
        try {
            return RadiographLoader.describe(FilmFiles.header(folder, "film", film.build()));
        } catch (org.holdfast.dicom.DicomReadException e) {
            throw new AssertionError(e);
        }
    }

    private FilmFacts facts(DataSet.Builder film) {
        return read(film).facts();
    }

    private List<String> codes(DataSet.Builder film) {
        return FilmFiles.codes(read(film).findings());
    }

    private static DataSet.Builder film() {
        return FilmFiles.film("film");
    }

    @Test
    void tablesComeBeforeWindowsEachInItsOrder() {
        FilmFacts facts = facts(film().items(
                        Tag.VOI_LUT_SEQUENCE,
                        List.of(FilmFiles.table(3, 0, 12, 0, 2000, 4095), FilmFiles.table(1, 0, 12, 7)))
                .string(Tag.WINDOW_CENTER, "600", "300")
                .string(Tag.WINDOW_WIDTH, "1000", "200")
                .string(Tag.WINDOW_EXPLANATION, "NORMAL", "HARDER")
                .string(Tag.VOI_LUT_FUNCTION, "SIGMOID"));
        assertEquals(4, facts.windows().size());
        assertTrue(facts.windows().get(0) instanceof VoiTransform.Table);
        assertEquals(
                List.of(
                        new VoiTransform.Window("NORMAL", 600, 1000, Function.SIGMOID),
                        new VoiTransform.Window("HARDER", 300, 200, Function.SIGMOID)),
                facts.windows().subList(2, 4));
    }

    @Test
    void windowsThatCannotBeDrawnAreLeftOutAndSaid() {
        DataSet.Builder film = film().string(Tag.WINDOW_CENTER, "600", "300").string(Tag.WINDOW_WIDTH, "0", "200");
        assertEquals(
                List.of(new VoiTransform.Window("", 300, 200, Function.LINEAR)),
                facts(film).windows());
        assertTrue(codes(film).contains("WINDOW_UNUSABLE"));
        assertTrue(codes(film().string(Tag.WINDOW_CENTER, "600")).contains("WINDOW_UNUSABLE"));
        assertTrue(codes(film().string(Tag.WINDOW_CENTER, "6")
                        .string(Tag.WINDOW_WIDTH, "6")
                        .string(Tag.VOI_LUT_FUNCTION, "CUBIC"))
                .contains("WINDOW_FUNCTION_UNKNOWN"));
    }

    @Test
    void decimalCommaIsAPoint() {
        DataSet.Builder film = film().string(Tag.WINDOW_CENTER, "600,5").string(Tag.WINDOW_WIDTH, "1000");
        assertEquals(600.5, ((VoiTransform.Window) facts(film).windows().get(0)).centre());
    }

    @Test
    void modalityTableWinsOverTheLine() {
        DataSet.Builder film = film().decimals(Tag.RESCALE_SLOPE, 2)
                .decimals(Tag.RESCALE_INTERCEPT, -5)
                .items(Tag.MODALITY_LUT_SEQUENCE, List.of(FilmFiles.table(3, 100, 16, 9, 65535, 7)));
        // By hand: entries of 100, 101, 102; 65535 is unsigned
        assertEquals(65535, facts(film).modality().apply(101));
        assertEquals(7, facts(film).modality().apply(4000));
        assertTrue(codes(film).contains("MODALITY_TABLE_AND_LINE"));
    }

    @Test
    void modalityTableOfAnAngiographyIsNotForDisplay() {
        DataSet.Builder film = film().string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.12.1")
                .string(Tag.MODALITY, "XA")
                .items(Tag.MODALITY_LUT_SEQUENCE, List.of(FilmFiles.table(1, 0, 16, 9)));
        assertEquals(ModalityTransform.NONE, facts(film).modality());
        assertTrue(codes(film).contains("MODALITY_TABLE_NOT_FOR_DISPLAY"));
    }

    @Test
    void brokenTablesAreLeftOutAndSaid() {
        DataSet.Builder shortData = film().items(Tag.VOI_LUT_SEQUENCE, List.of(FilmFiles.table(100, 0, 12, 1, 2, 3)));
        assertEquals(List.of(), facts(shortData).windows());
        assertTrue(codes(shortData).contains("WINDOW_TABLE_UNUSABLE"));
        DataSet.Builder broken = film().decimals(Tag.RESCALE_SLOPE, 2)
                .items(
                        Tag.MODALITY_LUT_SEQUENCE,
                        List.of(DataSet.builder()
                                .integers(Tag.LUT_DESCRIPTOR, 4, 0)
                                .build()));
        assertEquals(new ModalityTransform.Line(2, 0), facts(broken).modality());
        assertTrue(codes(broken).contains("MODALITY_TABLE_UNUSABLE"));
    }

    @Test
    void lineOfSlopeZeroIsNone() {
        DataSet.Builder film = film().decimals(Tag.RESCALE_SLOPE, 0).decimals(Tag.RESCALE_INTERCEPT, 3);
        assertEquals(ModalityTransform.NONE, facts(film).modality());
        assertTrue(codes(film).contains("RESCALE_UNUSABLE"));
    }

    @Test
    void firstMappedInputOfAWindowTableHasASignWhereTheLineGoesBelowZero() {
        DataSet table = FilmFiles.table(2, 0xFC00, 8, 1, 2);
        FilmFacts signed = facts(film().decimals(Tag.RESCALE_SLOPE, 1)
                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                .items(Tag.VOI_LUT_SEQUENCE, List.of(table)));
        // By hand: 0xFC00 is −1024 with a sign, 64512 without
        assertEquals(
                -1024, ((VoiTransform.Table) signed.windows().get(0)).table().firstMapped());
        FilmFacts unsigned = facts(film().items(Tag.VOI_LUT_SEQUENCE, List.of(table)));
        assertEquals(
                64512, ((VoiTransform.Table) unsigned.windows().get(0)).table().firstMapped());
    }

    @Test
    void countOfZeroMeans65536Entries() {
        int[] entries = new int[65_536];
        for (int n = 0; n < entries.length; n++) {
            entries[n] = 65_535 - n;
        }
        GreyTables.Read read = GreyTables.of(FilmFiles.table(0, 0, 16, entries), false);
        assertEquals(65_536, read.table().orElseThrow().size());
        assertEquals(0, read.table().orElseThrow().entry(65_535));
        assertEquals(65_535, read.table().orElseThrow().entry(0));
    }

    @Test
    void entriesOfEightBitsMayStandTwoInAWord() {
        GreyTables.Read read =
                GreyTables.of(FilmFiles.packedTable(0, (byte) 1, (byte) 2, (byte) 0xFE, (byte) 4), false);
        // By hand: the low byte of a word comes first
        assertEquals(0xFE, read.table().orElseThrow().entry(2));
        assertEquals(4, read.table().orElseThrow().entry(3));
        GreyTables.Read wide = GreyTables.of(FilmFiles.table(3, 0, 8, 1, 2, 250), false);
        assertEquals(250, wide.table().orElseThrow().entry(2));
    }

    @Test
    void packedEntriesComeInTheSameOrderFromABigEndianFile() throws Exception {
        DataSet film = film().items(
                        Tag.VOI_LUT_SEQUENCE, List.of(FilmFiles.packedTable(0, (byte) 1, (byte) 2, (byte) 3, (byte) 4)))
                .build();
        CtFiles.write(folder, "big", film, TransferSyntax.EXPLICIT_BIG_ENDIAN);
        ImageHeader header = ImageHeader.of(
                org.holdfast.dicom.DicomReader.read(folder.resolve("big")),
                folder.resolve("big").toString());
        VoiTransform.Table table = (VoiTransform.Table)
                RadiographLoader.describe(header).facts().windows().get(0);
        assertEquals(1, table.table().entry(0));
        assertEquals(4, table.table().entry(3));
    }

    @Test
    void dataOfAnyRepresentationAreUnsigned() {
        DataSet signed = DataSet.builder()
                .integers(Tag.LUT_DESCRIPTOR, 1, 0, 16)
                .bytes(Tag.LUT_DATA, Vr.SS, new byte[] {(byte) 0xFF, (byte) 0xFF})
                .build();
        assertEquals(65_535, GreyTables.of(signed, true).table().orElseThrow().entry(0));
    }

    @Test
    void inversionIsSaidTwiceAndDoneOnce() throws Exception {
        DataSet.Builder twice = film().string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME1")
                .string(Tag.PRESENTATION_LUT_SHAPE, "INVERSE");
        Radiograph film = RadiographLoader.load(FilmFiles.header(folder, "film", twice.build()), Progress.NONE)
                .film();
        VoiTransform window = new VoiTransform.Window("", 550, 1100, Function.LINEAR_EXACT);
        // By hand: the least value 0 is white, the most 1100 black; both stored as they were
        assertEquals(1, film.brightness(film.value(0, 0), window));
        assertEquals(0, film.brightness(film.value(3, 2), window));
        assertEquals(1100, film.stored(3, 2));
        assertFalse(codes(twice).contains("INVERSION_UNCLEAR"));
    }

    @Test
    void inversionCountsWhereEitherSaysSo() {
        assertFalse(facts(film()).isInverted());
        assertTrue(
                facts(film().remove(Tag.PRESENTATION_LUT_SHAPE).string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME1"))
                        .isInverted());
        DataSet.Builder atOdds = film().string(Tag.PRESENTATION_LUT_SHAPE, "INVERSE");
        assertTrue(facts(atOdds).isInverted());
        assertTrue(codes(atOdds).contains("INVERSION_UNCLEAR"));
    }

    @Test
    void orientationLateralityAndView() {
        FilmFacts facts = facts(film().string(Tag.PATIENT_ORIENTATION, "A", "F")
                .string(Tag.VIEW_POSITION, "LL")
                .string(Tag.IMAGE_LATERALITY, "R"));
        assertEquals("A", facts.orientation().right());
        assertEquals("H", facts.orientation().up());
        assertEquals("R", facts.orientation().laterality());
        assertEquals(View.SIDE, facts.orientation().view());
        assertTrue(codes(film().remove(Tag.PATIENT_ORIENTATION)).contains("ORIENTATION_NOT_SAID"));
    }

    @Test
    void pixelsKeepTheirShapeWithAndWithoutAScale() {
        // By hand: 1.2 / 1.6, and 3 to 4 as written
        assertEquals(
                0.75, facts(film().decimals(Tag.IMAGER_PIXEL_SPACING, 1.2, 1.6)).pixelAspect(), 1e-15);
        assertEquals(
                0.75, facts(film().string(Tag.PIXEL_ASPECT_RATIO, "3", "4")).pixelAspect());
        assertEquals(1, facts(film().string(Tag.PIXEL_ASPECT_RATIO, "01")).pixelAspect());
    }

    @Test
    void rawDataAreSaidToBeSuch() {
        assertTrue(read(film().string(Tag.PRESENTATION_INTENT_TYPE, "FOR PROCESSING"))
                .isForProcessing());
        assertFalse(read(film()).isForProcessing());
    }
}
