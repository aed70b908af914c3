package org.holdfast.volume;

import java.util.Objects;
import java.util.Optional;

/**
 * A projection radiograph: stored words as they came and the way to its greys. Immutable and safe to read from many
 * threads. Pixel (column i, row j), 0-based from the upper left; index {@code i + columns·j}.
 */
public final class Radiograph {

    /** A window that shows less of the picture than this share is not the file's wish. */
    private static final double LEAST_SHOWN = 0.01;

    private final FilmFacts facts;
    private final short[] words;
    private final int readWords;
    /** Output of the modality transform for each word's counted bits; NaN for padding. */
    private final float[] valueOfBits;

    private final int mask;
    private final FilmStatistics statistics;

    /**
     * @param facts what is known of it
     * @param words stored words, index i + columns·j; as many as pixels. The array is taken over, not copied
     * @param readWords words from the first on that were really there; the rest carries no image
     */
    public Radiograph(FilmFacts facts, short[] words, int readWords) {
        this.facts = Objects.requireNonNull(facts, "facts");
        this.words = Objects.requireNonNull(words, "words");
        if (words.length != (long) facts.columns() * facts.rows()) {
            throw new IllegalArgumentException(
                    facts.columns() + " × " + facts.rows() + " pixels need as many words, got " + words.length);
        }
        if (readWords < 0 || readWords > words.length) {
            throw new IllegalArgumentException("readWords must be 0 to " + words.length + ", got " + readWords);
        }
        this.readWords = readWords;
        this.mask = (1 << facts.format().bitsStored()) - 1;
        this.valueOfBits = new float[mask + 1];
        for (int bits = 0; bits <= mask; bits++) {
            int stored = facts.format().valueOf(bits);
            boolean isPadding = facts.padding().filter(p -> p.contains(stored)).isPresent();
            valueOfBits[bits] = isPadding ? Float.NaN : (float) facts.modality().apply(stored);
        }
        this.statistics = FilmStatistics.of(countsOfBits(), valueOfBits);
    }

    /** What is known of it but its pixels. */
    public FilmFacts facts() {
        return facts;
    }

    /** Stored value of a pixel: masked and with its sign, never inverted, padding as it is. Must lie in the image. */
    public int stored(int i, int j) {
        if (i < 0 || i >= facts.columns() || j < 0 || j >= facts.rows()) {
            throw new IndexOutOfBoundsException("pixel (" + i + ", " + j + ") outside " + facts.columns() + " × "
                    + facts.rows() + " columns and rows");
        }
        return facts.format().valueOf(words[i + facts.columns() * j]);
    }

    /**
     * Output of the modality transform at a pixel, to the precision of a float; NaN (documented, never silent) where the
     * pixel is padding or was cut off from the file. Must lie in the image.
     */
    public double value(int i, int j) {
        stored(i, j);
        int n = i + facts.columns() * j;
        return n < readWords ? valueOfBits[words[n] & mask] : Double.NaN;
    }

    /** {@link #value} of a run of pixels of a row, for loops; NaN as there. */
    void values(int row, int fromColumn, int count, float[] into) {
        int from = fromColumn + facts.columns() * row;
        for (int n = 0; n < count; n++) {
            into[n] = from + n < readWords ? valueOfBits[words[from + n] & mask] : Float.NaN;
        }
    }

    /** What there is of values, padding and cut-off pixels left out. */
    public FilmStatistics statistics() {
        return statistics;
    }

    /** Brightness of an output of the modality transform through a window, 0 black to 1 white, inverted last if it is to be. */
    public double brightness(double value, VoiTransform window) {
        double grey = window.grey(value);
        return facts.isInverted() ? 1 - grey : grey;
    }

    /**
     * The window from the 0.5 % to the 99.5 % quantile of the values; padding is left out. Empty where no pixel carries an
     * image.
     */
    public Optional<VoiTransform.Window> automaticWindow() {
        return statistics.count() == 0
                ? Optional.empty()
                : Optional.of(VoiTransform.Window.between(
                        "automatic", statistics.quantile(0.005), statistics.quantile(0.995)));
    }

    /** The window from the lowest to the highest value. Empty where no pixel carries an image. */
    public Optional<VoiTransform.Window> wholeRange() {
        return statistics.count() == 0
                ? Optional.empty()
                : Optional.of(
                        VoiTransform.Window.between("whole range", statistics.quantile(0), statistics.quantile(1)));
    }

    /**
     * The window in which it opens: the file's first that draws at least 1 % of the image neither black nor white, else the
     * automatic one. (A window may be written for other values than those stored.) Empty where no pixel carries an image.
     */
    public Optional<VoiTransform> opening() {
        return facts.windows().stream()
                .filter(window -> statistics.shareShown(window) >= LEAST_SHOWN)
                .findFirst()
                .or(this::automaticWindow);
    }

    /** Bytes that the pixels take. */
    public long pixelBytes() {
        return 2L * words.length + 4L * valueOfBits.length;
    }

    private int[] countsOfBits() {
        int[] counts = new int[mask + 1];
        for (int n = 0; n < readWords; n++) {
            counts[words[n] & mask]++;
        }
        return counts;
    }
}
