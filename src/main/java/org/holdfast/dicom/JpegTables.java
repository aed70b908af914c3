package org.holdfast.dicom;

/** What a stream has defined so far for the scans to come (ISO/IEC 10918-1, B.2.4). One thread. */
final class JpegTables {

    private static final int COEFFICIENTS = 64;

    /** Row × 8 + column of a coefficient by its place in the stream (ISO/IEC 10918-1, figure A.6). */
    private static final int[] ZIGZAG = zigzag();

    private final JpegHuffmanTable[] dc = new JpegHuffmanTable[4];
    private final JpegHuffmanTable[] ac = new JpegHuffmanTable[4];
    private final int[][] quantization = new int[4][];
    private int restartInterval;

    static int zigzag(int place) {
        return ZIGZAG[place];
    }

    /** Minimum coded units between restart markers; 0 for none. */
    int restartInterval() {
        return restartInterval;
    }

    /** A table for DC coefficients, or for differences where coding is without loss. */
    JpegHuffmanTable dc(int number) throws CorruptFrameException {
        return defined(dc, number, "DC Huffman");
    }

    JpegHuffmanTable ac(int number) throws CorruptFrameException {
        return defined(ac, number, "AC Huffman");
    }

    /** Quantization steps in the order of the stream. */
    int[] quantization(int number) throws CorruptFrameException {
        return defined(quantization, number, "quantization");
    }

    private static <T> T defined(T[] tables, int number, String kind) throws CorruptFrameException {
        if (number >= tables.length || tables[number] == null) {
            throw new CorruptFrameException(-1, kind + " table " + number, "none of that number");
        }
        return tables[number];
    }

    void readHuffman(JpegSegment segment) throws CorruptFrameException {
        while (segment.hasMore()) {
            int kindAndNumber = segment.unsignedByte();
            if ((kindAndNumber & 0xEC) != 0) {
                throw segment.corrupt("a Huffman table of kind 0 or 1, number 0 to 3", String.valueOf(kindAndNumber));
            }
            int[] counts = new int[16];
            int codes = 0;
            for (int i = 0; i < counts.length; i++) {
                counts[i] = segment.unsignedByte();
                codes += counts[i];
            }
            if (codes > 256) {
                throw segment.corrupt("at most 256 codes", String.valueOf(codes));
            }
            byte[] symbols = segment.bytes(codes);
            try {
                (kindAndNumber < 16 ? dc : ac)[kindAndNumber & 3] = new JpegHuffmanTable(counts, symbols);
            } catch (IllegalArgumentException e) {
                throw new CorruptFrameException(segment.start(), "a possible Huffman table", e.getMessage(), e);
            }
        }
    }

    void readQuantization(JpegSegment segment) throws CorruptFrameException {
        while (segment.hasMore()) {
            int widthAndNumber = segment.unsignedByte();
            if ((widthAndNumber & 0xEC) != 0) {
                throw segment.corrupt(
                        "a quantization table of 8 or 16 bits, number 0 to 3", String.valueOf(widthAndNumber));
            }
            int[] steps = new int[COEFFICIENTS];
            for (int i = 0; i < COEFFICIENTS; i++) {
                steps[i] = widthAndNumber < 16 ? segment.unsignedByte() : segment.unsignedShort();
            }
            quantization[widthAndNumber & 3] = steps;
        }
    }

    void readRestartInterval(JpegSegment segment) throws CorruptFrameException {
        restartInterval = segment.unsignedShort();
    }

    private static int[] zigzag() {
        int[] places = new int[COEFFICIENTS];
        int place = 0;
        for (int diagonal = 0; diagonal < 15; diagonal++) {
            for (int i = 0; i <= diagonal; i++) {
                // Even diagonals are walked upwards, odd ones downwards.
                int row = diagonal % 2 == 0 ? diagonal - i : i;
                int column = diagonal - row;
                if (row < 8 && column < 8) {
                    places[place++] = row * 8 + column;
                }
            }
        }
        return places;
    }
}
