package org.holdfast.volume;

import java.util.Objects;

/**
 * A look-up table of greys (PS3.3, sections C.11.1.1 and C.11.2.1.1): entry <i>n</i> belongs to the input {@code firstMapped
 * + n}. Inputs below the first are mapped to the first entry, inputs above the last to the last. Immutable.
 */
public final class LookupTable {

    /** Most entries that a descriptor can name: its 16-bit count 0 means so many. */
    public static final int MOST_ENTRIES = 1 << 16;

    private final int firstMapped;
    private final int bits;
    private final char[] entries;

    /**
     * @param firstMapped input of the first entry; −32,768 to 65,535
     * @param bits bits that an entry may use, 8 to 16: full output is 2^bits − 1
     * @param entries unsigned entries, 1 to 65,536; copied
     */
    public LookupTable(int firstMapped, int bits, char[] entries) {
        Objects.requireNonNull(entries, "entries");
        if (firstMapped < Short.MIN_VALUE || firstMapped > 0xFFFF) {
            throw new IllegalArgumentException("firstMapped must be -32768 to 65535, got " + firstMapped);
        }
        if (bits < 8 || bits > 16) {
            throw new IllegalArgumentException("bits must be 8 to 16, got " + bits);
        }
        if (entries.length < 1 || entries.length > MOST_ENTRIES) {
            throw new IllegalArgumentException("entries must be 1 to " + MOST_ENTRIES + ", got " + entries.length);
        }
        this.firstMapped = firstMapped;
        this.bits = bits;
        this.entries = entries.clone();
    }

    /** Input of the first entry. */
    public int firstMapped() {
        return firstMapped;
    }

    /** Number of entries. */
    public int size() {
        return entries.length;
    }

    /** Bits that an entry may use. */
    public int bits() {
        return bits;
    }

    /** Entry of an input, 0 to 65,535: the input is rounded to the nearest whole number, halves up, then clamped. */
    public int entry(double input) {
        double n = Math.floor(input + 0.5) - firstMapped;
        return entries[(int) Math.max(0, Math.min(entries.length - 1, n))];
    }

    /** Entry of an input as a share of the full output 2^bits − 1; an entry that uses more bits than it may counts as 1. */
    public double share(double input) {
        return Math.min(1, (double) entry(input) / ((1 << bits) - 1));
    }
}
