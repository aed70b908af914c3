package org.holdfast.dicom;

import java.util.Arrays;

/** A table of variable-length codes (ISO/IEC 10918-1, annex C and F.2.2.3). Immutable. */
final class JpegHuffmanTable {

    /** Codes up to this length are looked up at once. */
    private static final int SHORT = 9;

    private static final int LONGEST = 16;

    private final byte[] symbols;
    /** By the next bits: length of the code and its symbol as length << 8 | symbol; 0 if it is longer. */
    private final short[] byBits = new short[1 << SHORT];
    /** By length: one more than the last code of this length, filled up to 16 bits. */
    private final int[] limit = new int[LONGEST + 1];
    /** By length: what to add to a code for the place of its symbol. */
    private final int[] shift = new int[LONGEST + 1];

    /**
     * @param counts how many codes there are of 1 to 16 bits
     * @param symbols what they stand for, in that order
     * @throws IllegalArgumentException if so many codes of these lengths cannot be told apart
     */
    JpegHuffmanTable(int[] counts, byte[] symbols) {
        this.symbols = symbols.clone();
        int code = 0;
        int symbol = 0;
        for (int length = 1; length <= LONGEST; length++) {
            shift[length] = symbol - code;
            if (code + counts[length - 1] > 1 << length) {
                throw new IllegalArgumentException("more codes of " + length + " bits than there can be");
            }
            for (int i = 0; i < counts[length - 1]; i++, code++, symbol++) {
                lookUp(code, length, symbol);
            }
            limit[length] = code << (LONGEST - length);
            code <<= 1;
        }
    }

    private void lookUp(int code, int length, int symbol) {
        if (length <= SHORT) {
            int first = code << (SHORT - length);
            Arrays.fill(byBits, first, first + (1 << (SHORT - length)), (short) (length << 8 | symbols[symbol] & 0xFF));
        }
    }

    /** Takes a code; returns its symbol, −1 if there is no such code, 0 if the data is used up instead. */
    int take(JpegBits bits) {
        int next = bits.peek(LONGEST);
        int found = byBits[next >>> (LONGEST - SHORT)];
        if (found != 0) {
            bits.skip(found >>> 8);
            return found & 0xFF;
        }
        for (int length = SHORT + 1; length <= LONGEST; length++) {
            if (next < limit[length]) {
                bits.skip(length);
                return symbols[(next >>> (LONGEST - length)) + shift[length]] & 0xFF;
            }
        }
        if (bits.reachesBeyond(LONGEST)) {
            bits.skip(LONGEST);
            return 0;
        }
        return -1;
    }
}
