package org.holdfast.dicom;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * All that is needed to read the pixels of one file later, without its header. Immutable; holds no pixels.
 *
 * @param path the file
 * @param transferSyntax how the pixels are written
 * @param dataSetStart offset of the data set in the file
 * @param location where the pixel data lies
 * @param layout how stored values are arranged
 */
public record PixelSource(
        Path path, TransferSyntax transferSyntax, long dataSetStart, PixelLocation location, PixelLayout layout) {

    /**
     * Largest frame that is read at once: 16384 × 8192 values, or as many as there are 16 bytes of heap if that is less. A
     * value takes up to six bytes while it is counted: two as a word, four as a number.
     */
    static final long MOST_FRAME_VALUES =
            Math.min(1L << 27, Runtime.getRuntime().maxMemory() / 16);

    /** Longest compressed frame that is read, bytes. */
    static final long MOST_FRAME_BYTES = 1L << 30;

    public PixelSource {
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(transferSyntax, "transferSyntax");
        Objects.requireNonNull(location, "location");
        Objects.requireNonNull(layout, "layout");
    }

    /**
     * The pixels of a file. Where they are JPEG 2000 with a sign, the layout says so whatever the header does.
     *
     * @throws DicomReadException if there are none, or the header does not describe them
     */
    public static PixelSource of(DicomFile file) throws DicomReadException {
        PixelLocation location = file.pixels()
                .orElseThrow(() -> new DicomReadException(
                        file.path(), -1, OptionalInt.of(Tag.PIXEL_DATA), "pixel data", "none", null));
        PixelSource said = new PixelSource(
                file.path(), file.transferSyntax(), file.dataSetStart(), location, PixelLayout.of(file));
        return Jpeg2000Sign.overrules(said)
                ? new PixelSource(said.path, said.transferSyntax, said.dataSetStart, location, said.layout.withSign())
                : said;
    }

    /** Why this version cannot read the pixels, or empty if it can. */
    public Optional<String> whyUnreadable() {
        if (layout.frameValues() > MOST_FRAME_VALUES) {
            return Optional.of(
                    "a frame of " + layout.frameValues() + " values; this version reads at most " + MOST_FRAME_VALUES);
        }
        if (PixelCodecs.of(this).isPresent()) {
            return Optional.empty();
        }
        if (transferSyntax.encapsulated() || location.length() < 0) {
            // A syntax that has a decoder is only refused for its bits.
            String bits = FrameDecoders.of(transferSyntax).isPresent()
                    ? " of " + layout.bitsAllocated() + " bits allocated"
                    : "";
            return Optional.of(
                    "compressed pixels" + bits + ", " + transferSyntax.describe() + ", are not read by this version");
        }
        return Optional.of(String.format(
                Locale.ROOT,
                "pixels of %d bits, %s, in %s are not read by this version",
                layout.bitsAllocated(),
                layout.photometric().isEmpty() ? "photometric interpretation not said" : layout.photometric(),
                Tag.format(location.tag())));
    }

    /**
     * Most by which near-lossless coding may have moved a stored value, as the first frame says; empty unless the pixels
     * are coded that way. Reads the file.
     */
    public OptionalInt nearLosslessError() {
        return EncapsulatedCodec.nearLosslessError(this);
    }

    /** Whether pixel data for all frames is there. */
    public boolean isComplete() {
        return location.length() < 0 || availableBytes() >= layout.totalBytes();
    }

    /** Bytes of pixel data that are there, at most as many as the element says. */
    public long availableBytes() {
        return location.length() < 0 ? location.available() : Math.min(location.length(), location.available());
    }
}
