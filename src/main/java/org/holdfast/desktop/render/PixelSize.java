package org.holdfast.desktop.render;

/**
 * Size of a picture in device pixels.
 *
 * @param width pixels in a row, at least 0
 * @param height rows, at least 0
 */
public record PixelSize(int width, int height) {

    /** Not laid out yet. */
    public static final PixelSize NONE = new PixelSize(0, 0);

    public PixelSize {
        if (width < 0 || height < 0) {
            throw new IllegalArgumentException("a size must be at least 0, got " + width + " × " + height);
        }
    }

    /** Whether there is no pixel to draw. */
    public boolean isEmpty() {
        return width == 0 || height == 0;
    }
}
