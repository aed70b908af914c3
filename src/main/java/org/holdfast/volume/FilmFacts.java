package org.holdfast.volume;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * All that is known of a radiograph but its pixels. Immutable.
 *
 * <p>The way from a stored value to what is seen is modality transform → one of the windows → inversion last (PS3.4,
 * section N.2). The stored values themselves are never inverted.
 *
 * @param columns pixels in a row, at least 1
 * @param rows rows, at least 1
 * @param format how a stored word is read
 * @param modality first step
 * @param windows what the file offers for the second step, its first choice first; may be empty
 * @param isInverted whether low greys are light: photometric interpretation MONOCHROME1, which presentation shape INVERSE says
 *     once more (PS3.3, section C.8.11.3)
 * @param padding stored values that carry no image, if named
 * @param scale what a pixel's size stands for
 * @param pixelAspect height of a pixel to its width, above 0: of the scale where it has sizes, else as the file says
 * @param orientation how it lies
 * @param lossy how it was compressed with loss; empty if the file does not say that it was
 */
public record FilmFacts(
        int columns,
        int rows,
        StoredFormat format,
        ModalityTransform modality,
        List<VoiTransform> windows,
        boolean isInverted,
        Optional<PaddingRange> padding,
        PixelScale scale,
        double pixelAspect,
        FilmOrientation orientation,
        Optional<LossyCompression> lossy) {

    public FilmFacts {
        Objects.requireNonNull(format, "format");
        Objects.requireNonNull(modality, "modality");
        Objects.requireNonNull(padding, "padding");
        Objects.requireNonNull(scale, "scale");
        Objects.requireNonNull(orientation, "orientation");
        Objects.requireNonNull(lossy, "lossy");
        windows = List.copyOf(windows);
        if (columns < 1 || rows < 1) {
            throw new IllegalArgumentException("a radiograph needs pixels, got " + columns + " × " + rows);
        }
        if (!(pixelAspect > 0) || Double.isInfinite(pixelAspect)) {
            throw new IllegalArgumentException("pixelAspect must be finite and above 0, got " + pixelAspect);
        }
    }
}
