package org.holdfast.intake;

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
        if (!ImageKind.isRadiograph(header.identity())) {
            return Optional.of("not a radiograph");
        }
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
     * Loads a radiograph.
     *
     * @throws IllegalArgumentException if {@link #whyNot} gives a reason
     * @throws DicomReadException if the file cannot be read any more
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static LoadedRadiograph load(ImageHeader header, Progress progress) throws DicomReadException {
        whyNot(header).ifPresent(why -> {
            throw new IllegalArgumentException(header.name() + ": " + why);
        });
        progress.stopIfCancelled();
        progress.report(0, "loading a radiograph");
        String where = header.name();
        PixelSource pixels = header.pixels().orElseThrow();
        DataSet d = FunctionalGroups.frames(DicomReader.read(header.path()).dataSet())
                .findFirst()
                .orElseThrow();
        FilmHeader film = new FilmHeader(d, where);
        FilmFacts facts = film.facts(pixels.layout(), header.scale(), header.lossy());
        List<Finding> findings = new ArrayList<>(film.findings());
        try {
            Radiograph loaded = pixels(pixels, d, facts, findings, where);
            noteWindow(loaded, findings, where);
            progress.stopIfCancelled();
            progress.report(1, "loading a radiograph");
            return new LoadedRadiograph(loaded, findings);
        } catch (OutOfMemoryError e) {
            throw new DicomReadException(
                    header.path(),
                    -1,
                    OptionalInt.of(Tag.PIXEL_DATA),
                    "a picture that fits the memory",
                    "out of memory",
                    e);
        }
    }

    private static Radiograph pixels(
            PixelSource pixels, DataSet d, FilmFacts facts, List<Finding> findings, String where)
            throws DicomReadException {
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
                && d.integer(Tag.PLANAR_CONFIGURATION).orElse(0) == 1;
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
