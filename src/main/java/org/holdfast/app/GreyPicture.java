package org.holdfast.app;

/**
 * A small picture in shades of grey, black 0, white 255. Immutable as long as nobody writes into its array: a view, for
 * the window copies it anyway.
 *
 * @param width pixels a row, at least 1
 * @param height rows, at least 1
 * @param grey one byte a pixel, row by row from above, unsigned
 */
public record GreyPicture(int width, int height, byte[] grey) {

    public GreyPicture {
        if (width < 1 || height < 1 || grey.length != width * height) {
            throw new IllegalArgumentException(
                    "width and height must be at least 1 and grey hold width × height bytes, got " + width + ", "
                            + height + ", " + grey.length);
        }
    }
}
