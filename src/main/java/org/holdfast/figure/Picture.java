package org.holdfast.figure;

import java.util.Objects;

/**
 * A drawing as pixels. The array is the picture's own: who gets it does not write to it.
 *
 * @param width columns
 * @param height rows
 * @param rgb colours as 0xRRGGBB, row by row from the top
 */
public record Picture(int width, int height, int[] rgb) {

    public Picture {
        Objects.requireNonNull(rgb, "rgb");
        if (width < 1 || height < 1 || rgb.length != (long) width * height) {
            throw new IllegalArgumentException(
                    width + " × " + height + " pixels need as many colours, got " + rgb.length);
        }
    }
}
