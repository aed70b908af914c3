package org.holdfast.volume;

/**
 * How a 16-bit word of a stored image is to be read: which of its bits count and whether they carry a sign.
 *
 * @param bitsStored low bits that count, 1 to 16; the rest is ignored
 * @param signed whether the highest counted bit is a sign (two's complement)
 */
public record StoredFormat(int bitsStored, boolean signed) {

    public StoredFormat {
        if (bitsStored < 1 || bitsStored > 16) {
            throw new IllegalArgumentException("bitsStored must be 1 to 16, got " + bitsStored);
        }
    }

    /** Smallest value that can be stored. */
    public int min() {
        return signed ? -(1 << (bitsStored - 1)) : 0;
    }

    /** Largest value that can be stored. */
    public int max() {
        return signed ? (1 << (bitsStored - 1)) - 1 : (1 << bitsStored) - 1;
    }

    /** The stored value in a word: masked, then sign-extended where signed. */
    public int valueOf(int word) {
        int unused = 32 - bitsStored;
        return signed ? (word << unused) >> unused : (word << unused) >>> unused;
    }
}
