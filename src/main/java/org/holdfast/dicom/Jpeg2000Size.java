package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.util.Locale;
import java.util.Optional;

/**
 * What a JPEG 2000 codestream says of its size (ISO/IEC 15444-1, A.5.1), read without decoding anything.
 *
 * @param start first byte of the codestream in the frame; behind 0 if it lies in a JP2 file
 * @param columns width of the image
 * @param rows its height
 * @param tileColumns nominal width of a tile
 * @param tileRows nominal height of a tile
 * @param tiles number of tiles
 * @param components components
 * @param precision bits of the first component
 * @param signed whether it has a sign
 * @param alike whether all components have its precision and sign and as many samples as the image has pixels
 */
record Jpeg2000Size(
        int start,
        long columns,
        long rows,
        long tileColumns,
        long tileRows,
        long tiles,
        int components,
        int precision,
        boolean signed,
        boolean alike) {

    private static final int START_AND_SIZE = 0xFF4FFF51;
    private static final int SIGNATURE_BOX = 12;
    private static final int CODESTREAM_BOX = 0x6A703263;

    /** Bytes of the markers and of the segment before its components. */
    static final int FIXED = 42;

    private static final int MOST_TILES = 0xFFFF;

    /** Bytes that a tile takes at least: one header of a tile part and the start of its data (A.4.2, A.4.3). */
    private static final int LEAST_TILE_BYTES = 14;

    /** Reads the segment; empty if these bytes do not begin a codestream or a JP2 file, or end before it does. */
    static Optional<Jpeg2000Size> peek(byte[] frame) {
        int start = codestream(frame);
        if (start < 0 || frame.length - start < FIXED + 3) {
            return Optional.empty();
        }
        ByteBuffer b = ByteBuffer.wrap(frame, start, frame.length - start);
        if (b.getInt() != START_AND_SIZE) {
            return Optional.empty();
        }
        b.position(start + 8);
        long[] grid = new long[8];
        for (int i = 0; i < grid.length; i++) {
            grid[i] = b.getInt() & 0xFFFFFFFFL;
        }
        int components = b.getShort() & 0xFFFF;
        if (components == 0 || b.remaining() < 3L * components) {
            return Optional.empty();
        }
        int first = b.get() & 0xFF;
        boolean alike = b.get() == 1 & b.get() == 1;
        for (int i = 1; i < components; i++) {
            alike &= (b.get() & 0xFF) == first & b.get() == 1 & b.get() == 1;
        }
        return Optional.of(new Jpeg2000Size(
                start,
                grid[0] - grid[2],
                grid[1] - grid[3],
                grid[4],
                grid[5],
                tiles(grid[0], grid[2], grid[4], grid[6], grid[1], grid[3], grid[5], grid[7]),
                components,
                (first & 0x7F) + 1,
                first >= 0x80,
                alike));
    }

    /** Tiles that cover the image; −1 if the first does not begin before the image and reach into it (B.3). */
    private static long tiles(long x1, long x0, long width, long tx, long y1, long y0, long height, long ty) {
        if (width == 0 || height == 0 || tx > x0 || ty > y0 || tx + width <= x0 || ty + height <= y0) {
            return -1;
        }
        // At most 2^32 in each direction, so an overflow of the product is negative or still too many.
        long across = (x1 - tx + width - 1) / width;
        long down = (y1 - ty + height - 1) / height;
        return across > MOST_TILES || down > MOST_TILES ? Long.MAX_VALUE : across * down;
    }

    /** Where the codestream begins; −1 if there is none. */
    static int codestream(byte[] frame) {
        ByteBuffer b = ByteBuffer.wrap(frame);
        if (frame.length < 8 || b.getInt(0) != SIGNATURE_BOX) {
            return 0;
        }
        long at = 0;
        while (at >= 0 && at + 8 <= frame.length) {
            long length = b.getInt((int) at) & 0xFFFFFFFFL;
            int header = 8;
            if (length == 1 && at + 16 <= frame.length) {
                length = b.getLong((int) at + 8);
                header = 16;
            }
            if (b.getInt((int) at + 4) == CODESTREAM_BOX) {
                return (int) at + header;
            }
            if (length < header || length > frame.length - at) {
                return -1;
            }
            at += length;
        }
        return -1;
    }

    /**
     * Checks everything that memory is asked for by.
     *
     * @param length bytes of the frame
     */
    void require(PixelLayout layout, int length) throws CorruptFrameException {
        if (columns != layout.columns() || rows != layout.rows() || components != layout.samples()) {
            throw new CorruptFrameException(
                    start,
                    said(layout.rows(), layout.columns(), layout.samples()) + " as the header says",
                    said(rows, columns, components));
        }
        int most = Math.min(16, layout.bitsAllocated());
        if (precision > most || !alike) {
            throw new CorruptFrameException(
                    start,
                    "components of at most " + most + " bits, all alike",
                    alike ? precision + " bits" : "subsampled or different ones, which this version does not read");
        }
        long mostTiles = Math.min(MOST_TILES, (length - start) / LEAST_TILE_BYTES);
        if (tiles < 1 || tiles > mostTiles) {
            throw new CorruptFrameException(
                    start,
                    "1 to " + mostTiles + " tiles that cover the image",
                    "tiles of " + tileRows + " × " + tileColumns);
        }
    }

    private static String said(long rows, long columns, int samples) {
        return String.format(Locale.ROOT, "%d rows × %d columns × %d samples", rows, columns, samples);
    }
}
