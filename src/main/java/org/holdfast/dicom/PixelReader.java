package org.holdfast.dicom;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.OptionalInt;
import org.holdfast.finding.FileFailure;

/**
 * Reads frames of stored values. Keeps its buffer from frame to frame, so use one for many files; not thread-safe, one a
 * thread.
 */
public final class PixelReader {

    private final Scratch scratch = new Scratch();

    /** What is kept from frame to frame. */
    static final class Scratch {
        /** Memory outside the Java heap that grows as needed: the system reads into it without another copy. */
        private ByteBuffer buffer = ByteBuffer.allocateDirect(0);

        private PixelSource indexed;
        private EncapsulatedFrames frames;
        private PixelSource inflatedOf;
        private byte[] inflated;

        /** Where the frames of a source lie; found once for frames of one source that are read in a row. */
        EncapsulatedFrames frames(PixelSource source, FileChannel channel) throws IOException, DicomReadException {
            if (indexed != source) {
                frames = EncapsulatedFrames.of(source, channel);
                indexed = source;
            }
            return frames;
        }

        private int[] values = new int[0];
        private short[] words = new short[0];

        int[] values(int length) {
            values = values.length < length ? new int[length] : values;
            return values;
        }

        short[] words(int length) {
            words = words.length < length ? new short[length] : words;
            return words;
        }

        /** The data set of a deflated file, kept for further frames of one source. */
        byte[] inflated(PixelSource source, FileChannel channel) throws IOException, DicomReadException {
            if (inflatedOf != source) {
                inflated = null;
                inflated = BoundedInflater.inflate(source.path(), ByteSource.of(channel), source.dataSetStart());
                inflatedOf = source;
            }
            return inflated;
        }

        ByteBuffer ofSize(int bytes) {
            if (buffer.capacity() < bytes) {
                buffer = ByteBuffer.allocateDirect(bytes);
            }
            return buffer.clear().limit(bytes).order(ByteOrder.LITTLE_ENDIAN);
        }
    }

    /**
     * Reads one frame.
     *
     * @param source pixels that can be read; see {@link PixelSource#whyUnreadable}
     * @param frameIndex 0-based
     * @param words receives rows × columns × samples words as stored: bits that do not count are not yet masked. Of
     *     32 bits allocated it receives the stored values, if each fits 16 bits with the sign of the pixels
     * @return words that were read; fewer than the frame has if the file is cut short
     * @throws DicomReadException if the file cannot be read or is not what its header said, or a stored value does not
     *     fit 16 bits
     */
    public int read(PixelSource source, int frameIndex, short[] words) throws DicomReadException {
        requireFrame(source, frameIndex, words.length);
        PixelCodec codec = codec(source);
        try {
            return source.layout().bitsAllocated() > 16
                    ? readNarrowed(codec, source, frameIndex, words)
                    : codec.read(source, frameIndex, words, scratch);
        } catch (IOException e) {
            throw unreadable(source, FileFailure.words(e), e);
        } catch (OutOfMemoryError e) {
            throw unreadable(source, "too little memory for a frame", e);
        }
    }

    /**
     * Reads one frame as stored values: bits that do not count are masked, signed values carry their sign, unsigned ones
     * of 32 bits are as they are ({@link Integer#toUnsignedLong} gives the value).
     *
     * @param source pixels that can be read; see {@link PixelSource#whyUnreadable}
     * @param frameIndex 0-based
     * @param values receives rows × columns × samples values
     * @return values that were read; fewer than the frame has if the file is cut short
     * @throws DicomReadException if the file cannot be read or is not what its header said
     */
    public int readValues(PixelSource source, int frameIndex, int[] values) throws DicomReadException {
        requireFrame(source, frameIndex, values.length);
        PixelLayout layout = source.layout();
        if (layout.bitsAllocated() > 16) {
            try {
                return codec(source).readWide(source, frameIndex, values, scratch);
            } catch (IOException e) {
                throw unreadable(source, FileFailure.words(e), e);
            } catch (OutOfMemoryError e) {
                throw unreadable(source, "too little memory for a frame", e);
            }
        }
        short[] words = scratch.words(Math.toIntExact(layout.frameValues()));
        int count = read(source, frameIndex, words);
        int unused = 32 - Math.min(16, layout.bitsStored());
        for (int i = 0; i < count; i++) {
            int top = words[i] << unused;
            values[i] = layout.signed() ? top >> unused : top >>> unused;
        }
        return count;
    }

    private int readNarrowed(PixelCodec codec, PixelSource source, int frameIndex, short[] words)
            throws IOException, DicomReadException {
        int[] values = scratch.values(words.length);
        int count = codec.readWide(source, frameIndex, values, scratch);
        for (int i = 0; i < count; i++) {
            words[i] = narrowed(source, frameIndex, i, values[i]);
        }
        return count;
    }

    /** A value as a 16-bit word of the same sign. */
    private static short narrowed(PixelSource source, int frameIndex, int index, int value) throws DicomReadException {
        boolean fits = source.layout().signed() ? value == (short) value : value >>> 16 == 0;
        if (!fits) {
            long at = (source.layout().frameValues() * frameIndex + index) * 4;
            throw new DicomReadException(
                    source.path(),
                    source.location().offset() + at,
                    OptionalInt.of(source.location().tag()),
                    "a stored value of 16 bits",
                    source.layout().signed() ? Integer.toString(value) : Integer.toUnsignedString(value),
                    null);
        }
        return (short) value;
    }

    private static void requireFrame(PixelSource source, int frameIndex, int length) {
        PixelLayout layout = source.layout();
        if (frameIndex < 0 || frameIndex >= layout.frames() || length < layout.frameValues()) {
            throw new IllegalArgumentException("frame " + frameIndex + " of " + layout.frames() + " needs "
                    + layout.frameValues() + " words, got " + length);
        }
    }

    private static PixelCodec codec(PixelSource source) {
        return PixelCodecs.of(source)
                .orElseThrow(() -> new IllegalArgumentException(
                        source.path() + ": " + source.whyUnreadable().orElseThrow()));
    }

    private static DicomReadException unreadable(PixelSource source, String got, Throwable cause) {
        return new DicomReadException(
                source.path(),
                source.location().offset(),
                OptionalInt.of(source.location().tag()),
                "readable pixel data",
                got,
                cause);
    }
}
