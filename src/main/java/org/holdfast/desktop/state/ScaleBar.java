package org.holdfast.desktop.state;

/**
 * A bar of a round length that fits a picture. Immutable.
 *
 * @param lengthMm what it stands for
 * @param lengthPx how long it is drawn, logical pixels
 */
public record ScaleBar(double lengthMm, double lengthPx) {

    private static final double[] ROUND_MM = {100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1};

    /**
     * The longest round bar within a length.
     *
     * @param mmPerPx mm to one logical pixel, above 0
     * @param mostPx longest that it may be drawn
     */
    public static ScaleBar within(double mmPerPx, double mostPx) {
        for (double mm : ROUND_MM) {
            if (mm / mmPerPx <= mostPx) {
                return new ScaleBar(mm, mm / mmPerPx);
            }
        }
        double least = ROUND_MM[ROUND_MM.length - 1];
        return new ScaleBar(least, least / mmPerPx);
    }

    /** The length in words. */
    public String words() {
        return Words.quantity(lengthMm, lengthMm < 1 ? 1 : 0, "mm");
    }
}
