package org.holdfast.volume;

import java.util.List;
import java.util.Optional;

/** Small radiographs for tests. */
public final class TestFilms {

    private TestFilms() {}

    /** Stored values as they are, in rows; 12 bits unsigned, square pixels, no scale, nothing said. */
    public static Radiograph film(int columns, int... stored) {
        return film(facts(columns, stored.length / columns), stored);
    }

    public static Radiograph film(FilmFacts facts, int... stored) {
        short[] words = new short[stored.length];
        for (int n = 0; n < words.length; n++) {
            words[n] = (short) stored[n];
        }
        return new Radiograph(facts, words, words.length);
    }

    public static FilmFacts facts(int columns, int rows) {
        return facts(columns, rows, ModalityTransform.NONE, List.of(), false, Optional.empty());
    }

    public static FilmFacts facts(
            int columns,
            int rows,
            ModalityTransform modality,
            List<VoiTransform> windows,
            boolean isInverted,
            Optional<PaddingRange> padding) {
        return new FilmFacts(
                columns,
                rows,
                new StoredFormat(12, false),
                modality,
                windows,
                isInverted,
                padding,
                PixelScale.NOT_SAID,
                1,
                FilmOrientation.unknown(),
                Optional.empty());
    }

    /** The same facts with a scale, whose sizes give the pixels' shape, and an orientation. */
    public static FilmFacts with(FilmFacts f, PixelScale scale, FilmOrientation orientation) {
        return new FilmFacts(
                f.columns(),
                f.rows(),
                f.format(),
                f.modality(),
                f.windows(),
                f.isInverted(),
                f.padding(),
                scale,
                scale.kind() == PixelScale.Kind.NONE ? 1 : scale.rowMm() / scale.columnMm(),
                orientation,
                f.lossy());
    }
}
