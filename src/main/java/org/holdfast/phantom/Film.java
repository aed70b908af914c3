package org.holdfast.phantom;

import java.util.Objects;

/**
 * A simulated radiograph as a detector gives it: bright where the beam was weakened most. The array is the film's own.
 *
 * @param columns columns
 * @param rows rows
 * @param pixelMm side of a detector pixel, mm
 * @param stored 12-bit values, row by row from the top
 * @param lowest stored value that is shown black
 * @param highest stored value that is shown white
 */
record Film(int columns, int rows, double pixelMm, short[] stored, int lowest, int highest) {

    /** Largest stored value. */
    static final int LARGEST_STORED = 4095;

    Film {
        Objects.requireNonNull(stored, "stored");
        if (stored.length != Math.multiplyExact(columns, rows)) {
            throw new IllegalArgumentException(
                    columns + " × " + rows + " pixels need as many values, got " + stored.length);
        }
    }
}
