package org.holdfast.desktop.view;

/** Contrast of two colours by the Web Content Accessibility Guidelines 2.x; colours are 0xRRGGBB in sRGB. */
final class Contrast {

    private Contrast() {}

    /** Ratio of the two luminances with 0.05 added to each, the lighter above: 1 (none) to 21. */
    static double ratio(int one, int other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    /** Relative luminance, 0 to 1. */
    static double luminance(int colour) {
        double[] linear = linear(colour);
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
    }

    /** Red, green and blue in proportion to light, each 0 to 1. */
    static double[] linear(int colour) {
        return new double[] {part(colour >> 16), part(colour >> 8), part(colour)};
    }

    /** One colour over another, its share 0 to 1. */
    static int over(int above, double share, int below) {
        int mixed = 0;
        for (int shift = 16; shift >= 0; shift -= 8) {
            double value = (above >> shift & 0xFF) * share + (below >> shift & 0xFF) * (1 - share);
            mixed |= (int) Math.round(value) << shift;
        }
        return mixed;
    }

    private static double part(int byteInLowest) {
        double value = (byteInLowest & 0xFF) / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
}
