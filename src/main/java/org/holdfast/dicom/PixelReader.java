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
     * @param source pixels of at most 16 bits a sample; see {@link PixelSource#whyUnreadable}
     * @param frameIndex 0-based
     * @param words receives rows × columns × samples words as stored: bits that do not count are not yet masked
     * @return words that were read; fewer than the frame has if the file is cut short
     * @throws DicomReadException if the file cannot be read or is not what its header said
     */
    public int read(PixelSource source, int frameIndex, short[] words) throws DicomReadException {
        PixelLayout layout = source.layout();
        if (frameIndex < 0 || frameIndex >= layout.frames() || words.length < layout.frameValues()) {
            throw new IllegalArgumentException("frame " + frameIndex + " of " + layout.frames() + " needs "
                    + layout.frameValues() + " words, got " + words.length);
        }
        PixelCodec codec = PixelCodecs.of(source)
                .orElseThrow(() -> new IllegalArgumentException(
                        source.path() + ": " + source.whyUnreadable().orElseThrow()));
        try {
            return codec.read(source, frameIndex, words, scratch);
        } catch (IOException e) {
            throw new DicomReadException(
                    source.path(),
                    source.location().offset(),
                    OptionalInt.of(source.location().tag()),
                    "readable pixel data",
                    FileFailure.words(e),
                    e);
        }
    }
}
