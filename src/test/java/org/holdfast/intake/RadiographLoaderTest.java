package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Vr;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Radiograph;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RadiographLoaderTest {

    @TempDir
    private Path folder;

    private LoadedRadiograph load(DataSet.Builder film) throws DicomReadException {
        return RadiographLoader.load(FilmFiles.header(folder, "film", film.build()), Progress.NONE);
    }

    @Test
    void storedValuesAreThoseOfTheFile() throws Exception {
        Radiograph film = load(FilmFiles.film("film")).film();
        // By hand: 100 · (column + 4 · row)
        assertEquals(0, film.stored(0, 0));
        assertEquals(700, film.stored(3, 1));
        assertEquals(1100, film.stored(3, 2));
    }

    @Test
    void paddingIsLeftOut() throws Exception {
        Radiograph film = load(FilmFiles.film("film").integers(Tag.PIXEL_PADDING_VALUE, 0))
                .film();
        assertTrue(Double.isNaN(film.value(0, 0)));
        assertEquals(11, film.statistics().count());
    }

    @Test
    void ofSeveralFramesTheFirstIsShown() throws Exception {
        short[] words = new short[24];
        java.util.Arrays.fill(words, 12, 24, (short) 9);
        LoadedRadiograph run = load(FilmFiles.film("film")
                .string(Tag.MODALITY, "RF")
                .integers(Tag.NUMBER_OF_FRAMES, 2)
                .words(Tag.PIXEL_DATA, words));
        assertEquals(0, run.film().statistics().quantile(1));
        assertTrue(run.findings().stream()
                .anyMatch(f ->
                        f.code().equals("FIRST_FRAME_OF_SEVERAL") && f.text().startsWith("2 frames")));
    }

    private static DataSet.Builder colour(String photometric, int planar, byte... samples) {
        return FilmFiles.film("film")
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .integers(Tag.ROWS, 1)
                .integers(Tag.COLUMNS, 2)
                .integers(Tag.SAMPLES_PER_PIXEL, 3)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, photometric)
                .integers(Tag.PLANAR_CONFIGURATION, planar)
                .integers(Tag.BITS_ALLOCATED, 8)
                .integers(Tag.BITS_STORED, 8)
                .integers(Tag.HIGH_BIT, 7)
                .bytes(Tag.PIXEL_DATA, Vr.OB, samples);
    }

    @Test
    void coloursBecomeBrightness() throws Exception {
        LoadedRadiograph rgb = load(colour("RGB", 0, (byte) 255, (byte) 0, (byte) 0, (byte) 0, (byte) 100, (byte) 10));
        // By hand: 0.299 · 255 = 76.2; 0.587 · 100 + 0.114 · 10 = 59.8
        assertEquals(76, rgb.film().stored(0, 0));
        assertEquals(60, rgb.film().stored(1, 0));
        assertTrue(FilmFiles.codes(rgb.findings()).contains("COLOUR_AS_GREY"));
        LoadedRadiograph planes =
                load(colour("RGB", 1, (byte) 255, (byte) 0, (byte) 0, (byte) 100, (byte) 0, (byte) 10));
        assertEquals(76, planes.film().stored(0, 0));
        assertEquals(60, planes.film().stored(1, 0));
        LoadedRadiograph ybr =
                load(colour("YBR_FULL", 0, (byte) 76, (byte) 85, (byte) 255, (byte) 60, (byte) 0, (byte) 0));
        assertEquals(76, ybr.film().stored(0, 0));
        assertEquals(60, ybr.film().stored(1, 0));
    }

    @Test
    void coloursOutOfAPaletteAreSaidNotToBeShown() {
        DataSet film = FilmFiles.film("film")
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "PALETTE COLOR")
                .build();
        Optional<String> why = RadiographLoader.whyNot(FilmFiles.header(folder, "film", film));
        assertTrue(why.orElseThrow().contains("PALETTE COLOR"));
    }

    @Test
    void rowsThatWereCutOffCarryNoImage() throws Exception {
        CtFiles.write(folder, "film", FilmFiles.film("film").build());
        byte[] whole = Files.readAllBytes(folder.resolve("film"));
        Files.write(folder.resolve("cut"), java.util.Arrays.copyOf(whole, whole.length - 8));
        LoadedRadiograph cut = RadiographLoader.load(
                ImageHeader.of(
                        DicomReader.read(folder.resolve("cut")),
                        folder.resolve("cut").toString()),
                Progress.NONE);
        assertTrue(Double.isNaN(cut.film().value(0, 2)));
        assertEquals(700, cut.film().value(3, 1));
        assertTrue(FilmFiles.codes(cut.findings()).contains("PICTURE_CUT_SHORT"));
    }

    @Test
    void aWindowBesideThePictureIsSaidAndNotUsed() throws Exception {
        LoadedRadiograph film =
                load(FilmFiles.film("film").string(Tag.WINDOW_CENTER, "40000").string(Tag.WINDOW_WIDTH, "100"));
        assertTrue(FilmFiles.codes(film.findings()).contains("WINDOW_SHOWS_NOTHING"));
        assertEquals("automatic", film.film().opening().orElseThrow().name());
    }

    @Test
    void stopsWhenAsked() {
        ImageHeader header =
                FilmFiles.header(folder, "film", FilmFiles.film("film").build());
        Progress stopped = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(CancellationException.class, () -> RadiographLoader.load(header, stopped));
    }

    @Test
    void otherImagesAreNone() {
        ImageHeader ct =
                FilmFiles.header(folder, "ct", CtFiles.slice("ct", 0, 1000).build());
        assertEquals(Optional.of("not a radiograph"), RadiographLoader.whyNot(ct));
        // Shown as a picture all the same, before it is taken in.
        assertEquals(Optional.empty(), RadiographLoader.whyNoPicture(ct));
        ImageHeader volume = FilmFiles.header(
                folder,
                "volume",
                FilmFiles.film("volume")
                        .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.13.1.1")
                        .string(Tag.MODALITY, "XA")
                        .build());
        assertEquals(Optional.of("not a radiograph"), RadiographLoader.whyNot(volume));
    }

    @Test
    void seriesIsOfKindRadiograph() {
        CtFiles.write(folder, "film", FilmFiles.film("film").build());
        Series series = Intake.scan(List.of(folder), Progress.NONE).series().get(0);
        assertEquals(SeriesKind.RADIOGRAPH, series.kind());
        assertTrue(series.findings().get(0).text().contains("read by eye"));
    }

    @Test
    void filmsFromTheFrontComeFirstAndCopiesOnce() {
        CtFiles.write(
                folder, "a", FilmFiles.film("a").string(Tag.VIEW_POSITION, "LL").build());
        CtFiles.write(folder, "b", FilmFiles.film("b").build());
        CtFiles.write(folder, "copy of b", FilmFiles.film("b").build());
        RadiographChoice choice =
                RadiographChoice.of(Intake.scan(List.of(folder), Progress.NONE), Optional.empty(), Progress.NONE);
        assertEquals(
                List.of("AP", "LL"),
                choice.films().stream()
                        .map(film -> film.facts().orientation().viewPosition())
                        .toList());
    }
}
