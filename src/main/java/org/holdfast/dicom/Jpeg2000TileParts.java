package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.util.BitSet;
import java.util.Locale;

/**
 * Walks through the marker segments and tile parts of a codestream (ISO/IEC 15444-1, annex A) before the library does, which
 * shows what is left of a stream that is cut short as if it were all, loops without end on packed packet headers, and asks
 * for memory by what the headers say. One codestream, one thread.
 */
final class Jpeg2000TileParts {

    private static final int CODING_STYLE = 0xFF52;
    private static final int COMPONENT_CODING_STYLE = 0xFF53;
    private static final int PACKED_HEADERS_MAIN = 0xFF60;
    private static final int PACKED_HEADERS_TILE = 0xFF61;
    private static final int START_OF_TILE_PART = 0xFF90;
    private static final int START_OF_DATA = 0xFF93;
    private static final int END_OF_CODESTREAM = 0xFFD9;

    /** Bytes of the segment that starts a tile part, with its marker. */
    private static final int TILE_PART_HEADER = 12;

    /** Largest precincts, which are the default: 2^15 samples wide and high (A.6.1). */
    private static final int DEFAULT_PRECINCT = 0xFF;

    private final ByteBuffer bytes;
    private final Jpeg2000Size size;
    private int layers = 1;

    private Jpeg2000TileParts(byte[] frame, Jpeg2000Size size) {
        this.bytes = ByteBuffer.wrap(frame);
        this.size = size;
    }

    /** Checks a codestream whose size has been checked already. */
    static void require(byte[] frame, Jpeg2000Size size) throws CorruptFrameException {
        new Jpeg2000TileParts(frame, size).walk();
    }

    private void walk() throws CorruptFrameException {
        BitSet seen = new BitSet();
        int at = header(size.start() + 2, START_OF_TILE_PART);
        while (at + TILE_PART_HEADER <= bytes.limit() && unsignedShort(at) == START_OF_TILE_PART) {
            int tile = unsignedShort(at + 4);
            long length = bytes.getInt(at + 6) & 0xFFFFFFFFL;
            int data = header(at + TILE_PART_HEADER, START_OF_DATA) + 2;
            // No length says that the tile part reaches to the end.
            long end = length == 0 ? bytes.limit() : at + length;
            if (tile >= size.tiles() || end < data) {
                throw wrong(at, "a tile part of tile 0 to " + (size.tiles() - 1), "tile " + tile + ", " + length);
            }
            if (end > bytes.limit()) {
                throw wrong(at, "a tile part of " + length + " bytes", (bytes.limit() - at) + " up to the end");
            }
            seen.set(tile);
            at = (int) end;
        }
        if (seen.cardinality() < size.tiles()) {
            throw wrong(at, "data of " + size.tiles() + " tiles", "of " + seen.cardinality());
        }
    }

    /** Passes over segments up to a marker; returns where it stands. */
    private int header(int from, int last) throws CorruptFrameException {
        int at = from;
        while (true) {
            int marker = unsignedShort(at);
            if (marker == last) {
                return at;
            }
            if (marker == PACKED_HEADERS_MAIN || marker == PACKED_HEADERS_TILE) {
                throw wrong(at, "packet headers beside their packets", "packed ones, which this version does not read");
            }
            if (marker < 0xFF01 || marker == START_OF_DATA || marker == END_OF_CODESTREAM) {
                throw wrong(at, String.format(Locale.ROOT, "a header up to marker %04X", last), "another end");
            }
            int length = unsignedShort(at + 2);
            if (marker == CODING_STYLE) {
                boolean precincts = (unsignedByte(at + 4) & 1) != 0;
                layers = unsignedShort(at + 6);
                requirePackets(at + 9, precincts);
            } else if (marker == COMPONENT_CODING_STYLE) {
                int style = at + (size.components() < 257 ? 5 : 6);
                requirePackets(style + 1, (unsignedByte(style) & 1) != 0);
            }
            at += 2 + Math.max(2, length);
        }
    }

    /** A packet takes a byte at least, so there cannot be more of them than bytes (B.6, B.10). */
    private void requirePackets(int at, boolean precincts) throws CorruptFrameException {
        int levels = unsignedByte(at);
        long packets = 0;
        for (int resolution = 0; resolution <= Math.min(levels, 32); resolution++) {
            int exponents = precincts ? unsignedByte(at + 5 + resolution) : DEFAULT_PRECINCT;
            int reduced = Math.min(levels, 32) - resolution;
            long across = size.columns() >> reduced >> (exponents & 15);
            long down = size.rows() >> reduced >> (exponents >> 4);
            packets += Math.max(1, across) * Math.max(1, down);
        }
        if (levels > 32 || layers == 0 || packets * layers > bytes.limit()) {
            throw wrong(
                    at,
                    "at most 32 levels, and a byte for each packet",
                    levels + " levels, " + layers + " layers, at least " + packets * layers + " packets");
        }
    }

    private int unsignedByte(int at) throws CorruptFrameException {
        if (at >= bytes.limit()) {
            throw wrong(bytes.limit(), "a whole header of a JPEG 2000 codestream", "the end of the frame");
        }
        return bytes.get(at) & 0xFF;
    }

    private int unsignedShort(int at) throws CorruptFrameException {
        int high = unsignedByte(at);
        return high << 8 | unsignedByte(at + 1);
    }

    private static CorruptFrameException wrong(int at, String expected, String got) {
        return new CorruptFrameException(at, expected, got);
    }
}
