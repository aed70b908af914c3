package org.holdfast.figure;

import java.util.Locale;

/**
 * An opaque or translucent colour in sRGB. Immutable.
 *
 * @param rgb red, green and blue as 0xRRGGBB
 * @param opacity 0 (invisible) to 1 (opaque)
 */
public record Colour(int rgb, double opacity) {

    public Colour {
        if (rgb < 0 || rgb > 0xFFFFFF) {
            throw new IllegalArgumentException("rgb must lie in 0x000000 to 0xFFFFFF, got " + Integer.toHexString(rgb));
        }
        if (!(opacity >= 0 && opacity <= 1)) {
            throw new IllegalArgumentException("opacity must lie in [0, 1], got " + opacity);
        }
    }

    /** The opaque colour 0xRRGGBB. */
    public static Colour of(int rgb) {
        return new Colour(rgb, 1);
    }

    /** This colour with another opacity, 0 to 1. */
    public Colour withOpacity(double newOpacity) {
        return new Colour(rgb, newOpacity);
    }

    /** The colour without its opacity as {@code #rrggbb}. */
    public String hex() {
        return String.format(Locale.ROOT, "#%06x", rgb);
    }
}
