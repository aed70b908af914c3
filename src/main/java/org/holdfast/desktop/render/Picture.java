package org.holdfast.desktop.render;

import java.util.Objects;

/**
 * Opaque pixels, ready to be shown. The array is the picture's own and is not written to once it is handed over: pictures
 * are not copied on their way to the screen.
 *
 * @param width pixels in a row, at least 1
 * @param height rows, at least 1
 * @param argb 0xFFRRGGBB, index x + width·y
 */
public record Picture(int width, int height, int[] argb) {

    public Picture {
        Objects.requireNonNull(argb, "argb");
        if (width < 1 || height < 1 || (long) width * height != argb.length) {
            throw new IllegalArgumentException(
                    "a picture of " + width + " × " + height + " pixels cannot have " + argb.length + " of them");
        }
    }

    /** The pixel at (x, y), 0xFFRRGGBB. */
    public int at(int x, int y) {
        if (x < 0 || x >= width) {
            throw new IndexOutOfBoundsException("x " + x + " outside 0 to " + (width - 1));
        }
        return argb[x + width * y];
    }

    /** Size in device pixels. */
    public PixelSize size() {
        return new PixelSize(width, height);
    }
}
