package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;

/**
 * RLE Lossless (PS3.5, annex G): each byte of a sample has a segment of its own, the most significant first, and each
 * segment is packed by runs. Samples of 8 or 16 bits. Stateless.
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
        if (layout.bitsAllocated() != 8 && layout.bitsAllocated() != 16) {
            throw new CorruptFrameException(
                    -1, "8 or 16 bits allocated in RLE segments", layout.bitsAllocated() + " bits");
        }
        int bytesPerSample = layout.bitsAllocated() / 8;
        int[] bounds = bounds(frame, layout.samples() * bytesPerSample);
        int rowBytes = layout.columns();
        byte[] plane = new byte[Math.multiplyExact(layout.rows(), rowBytes)];
        int wholeRows = layout.rows();
        for (int segment = 0; segment + 1 < bounds.length; segment++) {
            int unpacked = unpack(frame, bounds[segment], bounds[segment + 1], plane);
            wholeRows = Math.min(wholeRows, unpacked / rowBytes);
            int first = segment / bytesPerSample;
            if (segment % bytesPerSample == 0) {
                setLowBytes(words, first, layout.samples(), plane, wholeRows * rowBytes);
            } else {
                appendLowBytes(words, first, layout.samples(), plane, wholeRows * rowBytes);
            }
        }
        if (wholeRows == 0) {
            throw new CorruptFrameException(
                    frame.length, "segments that hold whole rows of " + rowBytes + " bytes", "no whole row");
        }
        int count = wholeRows * rowBytes * layout.samples();
        moveToLowestBits(words, count, layout.highBit() + 1 - layout.bitsStored());
        return count;
    }

    /** Where the segments begin, and behind them the end of the last. */
    private static int[] bounds(byte[] frame, int segments) throws CorruptFrameException {
        if (frame.length < HEADER_BYTES) {
            throw new CorruptFrameException(0, "an RLE header of 64 bytes", frame.length + " bytes");
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

    /** Unpacks a segment (section G.3.2) as far as it and the plane go; returns how many bytes it gave. */
    private static int unpack(byte[] frame, int from, int end, byte[] plane) {
        int at = from;
        int filled = 0;
        while (at + 1 < end && filled < plane.length) {
            int code = frame[at++];
            if (code >= 0) {
                int length = Math.min(Math.min(code + 1, end - at), plane.length - filled);
                System.arraycopy(frame, at, plane, filled, length);
                at += length;
                filled += length;
            } else if (code != NO_OPERATION) {
                int length = Math.min(1 - code, plane.length - filled);
                Arrays.fill(plane, filled, filled + length, frame[at++]);
                filled += length;
            }
        }
        return filled;
    }

    private static void setLowBytes(short[] words, int first, int step, byte[] plane, int count) {
        for (int i = 0, w = first; i < count; i++, w += step) {
            words[w] = (short) (plane[i] & 0xFF);
        }
    }

    private static void appendLowBytes(short[] words, int first, int step, byte[] plane, int count) {
        for (int i = 0, w = first; i < count; i++, w += step) {
            words[w] = (short) (words[w] << 8 | plane[i] & 0xFF);
        }
    }

    private static void moveToLowestBits(short[] words, int count, int unused) {
        for (int i = 0; unused > 0 && i < count; i++) {
            words[i] = (short) ((words[i] & 0xFFFF) >>> unused);
        }
    }
}
