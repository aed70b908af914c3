package org.holdfast.intake;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.Radiograph;

/** Loads one radiograph: its header once more, then its pixels. Of several frames the first is taken. Stateless. */
public final class RadiographLoader {

    private RadiographLoader() {}

    /** Why a file cannot be shown as a radiograph; empty if it can. */
    public static Optional<String> whyNot(ImageHeader header) {
        return ImageKind.isRadiograph(header.identity()) ? whyNoPicture(header) : Optional.of("not a radiograph");
    }

    /** Why a file of any kind cannot be shown as a picture; empty if it can. */
    public static Optional<String> whyNoPicture(ImageHeader header) {
        if (header.pixels().isEmpty()) {
            return Optional.of("no pixel data that the header describes");
        }
        PixelSource pixels = header.pixels().get();
        PixelLayout layout = pixels.layout();
        if (pixels.whyUnreadable().isPresent()) {
            return pixels.whyUnreadable();
        }
        if (layout.bitsStored() > 16) {
            return Optional.of(layout.bitsStored() + " bits a pixel");
        }
        return ColourGreys.whyNot(layout);
    }

    /**
     * Reads what is to be known of a radiograph, or of another picture, before its pixels.
     *
     * @throws IllegalArgumentException if {@link #whyNoPicture} gives a reason
     * @throws DicomReadException if the file cannot be read any more
     */
    public static RadiographFile describe(ImageHeader header) throws DicomReadException {
        whyNoPicture(header).ifPresent(why -> {
            throw new IllegalArgumentException(header.name() + ": " + why);
        });
        FilmHeader film = new FilmHeader(firstFrame(header), header.name());
        FilmFacts facts = film.facts(header.pixels().orElseThrow().layout(), header.scale(), header.lossy());
        return new RadiographFile(header, facts, film.findings());
    }

    /**
     * Loads a radiograph, or another picture.
     *
     * @throws IllegalArgumentException if {@link #whyNoPicture} gives a reason
     * @throws DicomReadException if the file cannot be read any more
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static LoadedRadiograph load(ImageHeader header, Progress progress) throws DicomReadException {
        return load(describe(header), progress);
    }

    /**
     * Loads the pixels of a radiograph.
     *
     * @throws DicomReadException if the file cannot be read any more
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static LoadedRadiograph load(RadiographFile file, Progress progress) throws DicomReadException {
        progress.stopIfCancelled();
        progress.report(0, "loading a radiograph");
        Path path = file.file().path();
        String where = file.file().name();
        List<Finding> findings = new ArrayList<>(file.findings());
        try {
            Radiograph loaded = pixels(file, findings, where);
            noteWindow(loaded, findings, where);
            progress.stopIfCancelled();
            progress.report(1, "loading a radiograph");
            return new LoadedRadiograph(loaded, findings);
        } catch (OutOfMemoryError e) {
            throw new DicomReadException(
                    path, -1, OptionalInt.of(Tag.PIXEL_DATA), "a picture that fits the memory", "out of memory", e);
        }
    }

    private static DataSet firstFrame(ImageHeader header) throws DicomReadException {
        DataSet whole = DicomReader.read(header.path()).dataSet();
        return FunctionalGroups.frames(whole).findFirst().orElse(whole);
    }

    private static Radiograph pixels(RadiographFile file, List<Finding> findings, String where)
            throws DicomReadException {
        PixelSource pixels = file.file().pixels().orElseThrow();
        FilmFacts facts = file.facts();
        PixelLayout layout = pixels.layout();
        if (layout.frames() > 1) {
            findings.add(Finding.info(
                    "FIRST_FRAME_OF_SEVERAL",
                    layout.frames() + " frames, such as a run under X-rays: the first is shown",
                    where));
        }
        facts.lossy()
                .ifPresent(lossy -> findings.add(Finding.warning(
                        "LOSSY",
                        "compressed with loss (" + lossy.words() + "): fine detail may be missing or made up",
                        where)));
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        int read = new PixelReader().read(pixels, 0, words);
        if (read < words.length) {
            findings.add(Finding.warning(
                    "PICTURE_CUT_SHORT",
                    String.format(
                            Locale.ROOT,
                            "the picture ends after %d of its %d rows; the rest carries no values",
                            read / (layout.columns() * layout.samples()),
                            layout.rows()),
                    where));
        }
        if (layout.samples() == 1) {
            return new Radiograph(facts, words, read);
        }
        findings.add(
                Finding.info("COLOUR_AS_GREY", "a picture in colours is shown as greys, for looking at only", where));
        boolean inPlanes = !pixels.transferSyntax().encapsulated()
                && firstFrame(file.file()).integer(Tag.PLANAR_CONFIGURATION).orElse(0) == 1;
        return new Radiograph(facts, ColourGreys.of(layout, words, inPlanes), inPlanes ? whole(read, words) : read / 3);
    }

    /** Of planes cut short no pixel has all its colours for sure. */
    private static int whole(int read, short[] words) {
        return read == words.length ? words.length / 3 : 0;
    }

    /** A first window that leaves nearly all black or white is most likely wrong. */
    private static void noteWindow(Radiograph film, List<Finding> findings, String where) {
        boolean saidAny = !film.facts().windows().isEmpty();
        if (saidAny && film.opening().filter(film.facts().windows()::contains).isEmpty()) {
            findings.add(Finding.warning(
                    "WINDOW_SHOWS_NOTHING",
                    "the file's windows leave nearly all of the picture black or white; it opens in an automatic one",
                    where));
        }
    }
}
