package org.holdfast.dicom;

import java.util.Objects;
import java.util.OptionalInt;

/**
 * How the stored values of an image are arranged (PS3.3, section C.7.6.3). Immutable and checked: sizes can be multiplied
 * without overflow.
 *
 * @param rows rows of a frame
 * @param columns columns of a frame
 * @param frames frames
 * @param samples samples of a pixel, 1 for grey
 * @param bitsAllocated bits that a sample takes, 1, 8, 16, 32 or 64
 * @param bitsStored bits of it that count
 * @param highBit position of the highest bit that counts
 * @param signed whether stored values have a sign
 * @param photometric photometric interpretation as written; empty if not said
 */
public record PixelLayout(
        int rows,
        int columns,
        int frames,
        int samples,
        int bitsAllocated,
        int bitsStored,
        int highBit,
        boolean signed,
        String photometric) {

    public PixelLayout {
        Objects.requireNonNull(photometric, "photometric");
        requireRange("rows", rows, 1, 0xFFFF);
        requireRange("columns", columns, 1, 0xFFFF);
        requireRange("frames", frames, 1, Integer.MAX_VALUE);
        requireRange("samples", samples, 1, 4);
        if (bitsAllocated != 1
                && bitsAllocated != 8
                && bitsAllocated != 16
                && bitsAllocated != 32
                && bitsAllocated != 64) {
            throw new IllegalArgumentException("bitsAllocated must be 1, 8, 16, 32 or 64, got " + bitsAllocated);
        }
        requireRange("bitsStored", bitsStored, 1, bitsAllocated);
        requireRange("highBit", highBit, bitsStored - 1, bitsAllocated - 1);
        long bitsOfFrame = (long) rows * columns * samples * bitsAllocated;
        if (bitsOfFrame > Long.MAX_VALUE / frames) {
            throw new IllegalArgumentException(
                    frames + " frames of " + bitsOfFrame + " bits are more than can be counted");
        }
    }

    /**
     * The layout that a header describes.
     *
     * @throws DicomReadException if rows, columns or bits are missing or impossible
     */
    public static PixelLayout of(DicomFile file) throws DicomReadException {
        DataSet d = file.dataSet();
        int allocated = required(file, Tag.BITS_ALLOCATED);
        int stored = optional(file, Tag.BITS_STORED, allocated);
        try {
            return new PixelLayout(
                    required(file, Tag.ROWS),
                    required(file, Tag.COLUMNS),
                    Math.max(1, optional(file, Tag.NUMBER_OF_FRAMES, 1)),
                    optional(file, Tag.SAMPLES_PER_PIXEL, 1),
                    allocated,
                    stored,
                    optional(file, Tag.HIGH_BIT, stored - 1),
                    optional(file, Tag.PIXEL_REPRESENTATION, 0) == 1,
                    d.string(Tag.PHOTOMETRIC_INTERPRETATION).orElse(""));
        } catch (IllegalArgumentException e) {
            throw new DicomReadException(
                    file.path(), -1, OptionalInt.of(Tag.BITS_ALLOCATED), "a possible pixel layout", e.getMessage(), e);
        }
    }

    /** The same, of values with a sign. */
    PixelLayout withSign() {
        return new PixelLayout(rows, columns, frames, samples, bitsAllocated, bitsStored, highBit, true, photometric);
    }

    /** Stored values of a frame, all samples. */
    public long frameValues() {
        return (long) rows * columns * samples;
    }

    /** Bits of a frame; frames of single bits follow each other without filling (PS3.5, section 8.1.1). */
    long frameBits() {
        return frameValues() * bitsAllocated;
    }

    /** Bytes of all frames as they are stored without compression, without a padding byte. */
    public long totalBytes() {
        long bits = frameBits() * frames;
        return bits / 8 + (bits % 8 == 0 ? 0 : 1);
    }

    private static int required(DicomFile file, int tag) throws DicomReadException {
        OptionalInt value = file.dataSet().integer(tag);
        if (value.isEmpty()) {
            throw new DicomReadException(
                    file.path(), -1, OptionalInt.of(tag), "a number that describes the pixels", "none", null);
        }
        return value.getAsInt();
    }

    private static int optional(DicomFile file, int tag, int absent) throws DicomReadException {
        OptionalInt value = file.dataSet().integer(tag);
        if (value.isEmpty() && !file.dataSet().isBlank(tag)) {
            String got = String.join("\\", file.dataSet().strings(tag));
            throw new DicomReadException(file.path(), -1, OptionalInt.of(tag), "a whole number", got, null);
        }
        return value.orElse(absent);
    }

    private static void requireRange(String name, int value, int lowest, int highest) {
        if (value < lowest || value > highest) {
            throw new IllegalArgumentException(name + " must be " + lowest + " to " + highest + ", got " + value);
        }
    }
}
