package org.holdfast.desktop.render;

/**
 * Lengths along a part on the width of a picture, with room on both sides. Immutable.
 *
 * @param fromMm start of the stretch that is drawn
 * @param toMm its end, above the start
 * @param left where the start lies, pixels
 * @param right where the end lies, pixels
 */
record LengthScale(double fromMm, double toMm, double left, double right) {

    /** Room on the left and right for words, share of the width. */
    private static final double MARGIN = 0.19;

    static LengthScale of(double fromMm, double toMm, int widthPixels) {
        double margin = MARGIN * widthPixels;
        return new LengthScale(fromMm, Math.max(fromMm + 1, toMm), margin, widthPixels - margin);
    }

    double pixelsPerMm() {
        return (right - left) / (toMm - fromMm);
    }

    double x(double atMm) {
        return left + (atMm - fromMm) * pixelsPerMm();
    }

    double atMm(double x) {
        return fromMm + (x - left) / pixelsPerMm();
    }
}
