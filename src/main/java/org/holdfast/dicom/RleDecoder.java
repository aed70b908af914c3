package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * RLE Lossless (PS3.5, annex G): each byte of a sample has a segment of its own, the most significant first, and each
 * segment is packed by runs. Samples of 8, 16 or 32 bits. Stateless.
 *
 * <p>A segment that gives too few bytes leaves the rows that are whole in all segments; one that gives too many is read as
 * far as the frame goes. Bits above the stored ones are left as they are.
 */
final class RleDecoder implements FrameDecoder {

    /** Number of segments and fifteen offsets (section G.5). */
    private static final int HEADER_BYTES = 64;

    private static final int NO_OPERATION = -128;

    @Override
    public int decode(byte[] frame, PixelLayout layout, short[] words) throws CorruptFrameException {
        int[] values = new int[Math.toIntExact(layout.frameValues())];
        int count = unpack(frame, layout, values);
        int unused = layout.highBit() + 1 - layout.bitsStored();
        for (int i = 0; i < count; i++) {
            words[i] = (short) (values[i] >>> unused);
        }
        return count;
    }

    /**
     * Puts the bytes of the segments together.
     *
     * @param values receives the samples of all pixels with all bits that are allocated, without sign
     * @return values of whole rows
     */
    static int unpack(byte[] frame, PixelLayout layout, int[] values) throws CorruptFrameException {
        if (layout.bitsAllocated() != 8 && layout.bitsAllocated() != 16 && layout.bitsAllocated() != 32) {
            throw new CorruptFrameException(
                    -1, "8, 16 or 32 bits allocated in RLE segments", layout.bitsAllocated() + " bits");
        }
        int bytesPerSample = layout.bitsAllocated() / 8;
        int[] bounds = bounds(frame, layout.samples() * bytesPerSample);
        int samples = layout.samples();
        int pixels = Math.multiplyExact(layout.rows(), layout.columns());
        for (int segment = 0; segment + 1 < bounds.length; segment++) {
            int kept = segment % bytesPerSample == 0 ? 0 : 0xFFFFFF;
            Plane plane = new Plane(values, segment / bytesPerSample, samples, pixels, kept);
            pixels = plane.unpack(frame, bounds[segment], bounds[segment + 1]);
        }
        int rows = pixels / layout.columns();
        if (rows == 0) {
            throw new CorruptFrameException(
                    frame.length, "segments that hold a row of " + layout.columns() + " bytes", pixels + " bytes");
        }
        return rows * layout.columns() * samples;
    }

    /** Where the segments begin, and behind them the end of the last. */
    private static int[] bounds(byte[] frame, int segments) throws CorruptFrameException {
        if (frame.length < HEADER_BYTES) {
            throw new CorruptFrameException(0, "a header of 64 bytes of RLE segments", frame.length + " bytes");
        }
        ByteBuffer header = ByteBuffer.wrap(frame).order(ByteOrder.LITTLE_ENDIAN);
        int written = header.getInt();
        if (written != segments) {
            throw new CorruptFrameException(
                    0, segments + " RLE segments, one for each byte of a pixel", Integer.toUnsignedString(written));
        }
        int[] bounds = new int[segments + 1];
        long previous = HEADER_BYTES;
        for (int segment = 0; segment < segments; segment++) {
            int at = header.position();
            long offset = header.getInt() & 0xFFFFFFFFL;
            if (offset < previous) {
                throw new CorruptFrameException(
                        at, "an RLE segment that begins at byte " + previous + " or later", "byte " + offset);
            }
            // A segment that begins behind the end was cut off with all its bytes.
            bounds[segment] = (int) Math.min(offset, frame.length);
            previous = offset;
        }
        bounds[segments] = frame.length;
        return bounds;
    }

    /**
     * One byte of one sample of all pixels.
     *
     * @param words receives the bytes, each as the lowest of a word
     * @param sample 0-based sample of the pixel
     * @param samples samples of a pixel
     * @param pixels most pixels that are filled
     * @param kept which bits of a word are kept and moved up by a byte
     */
    private record Plane(int[] words, int sample, int samples, int pixels, int kept) {

        /** Unpacks a segment (section G.3.2) as far as it and the frame go; returns how many bytes it gave. */
        int unpack(byte[] frame, int from, int end) {
            int at = from;
            int filled = 0;
            while (at + 1 < end && filled < pixels) {
                int code = frame[at++];
                if (code >= 0) {
                    int stop = filled + Math.min(Math.min(code + 1, end - at), pixels - filled);
                    while (filled < stop) {
                        put(filled++, frame[at++]);
                    }
                } else if (code != NO_OPERATION) {
                    int stop = filled + Math.min(1 - code, pixels - filled);
                    byte repeated = frame[at++];
                    while (filled < stop) {
                        put(filled++, repeated);
                    }
                }
            }
            return filled;
        }

        private void put(int pixel, byte value) {
            int w = pixel * samples + sample;
            words[w] = (words[w] & kept) << 8 | value & 0xFF;
        }
    }
}
