package org.holdfast.measure;

import java.util.function.DoubleUnaryOperator;

/**
 * From the place where the threshold finds bone to the width of the gap.
 *
 * <p>The rule takes the first window of some tenths of a mm whose mean reaches the threshold. The window reaches ahead, and
 * the blurred front of the bone passes a low threshold early, so that the place lies about 0.6 mm short of the bone. By
 * how much is found by running the rule on the model of the profile with gaps of known width, as the detection limit is.
 */
final class GapWidth {

    private static final double STEP_MM = 0.1;

    private final double[] placeMm;
    private final double[] widthMm;

    private GapWidth(double[] placeMm, double[] widthMm) {
        this.placeMm = placeMm;
        this.widthMm = widthMm;
    }

    /** Where nothing is known of the profile: the place is taken for the width. */
    static GapWidth none() {
        return new GapWidth(new double[0], new double[0]);
    }

    /**
     * Runs the rule.
     *
     * @param placeOf distance from the edge at which the rule finds bone for a gap of a width, mm; NaN where it finds none
     * @param fromMm narrowest gap, the smallest visible one
     * @param toMm widest gap
     */
    static GapWidth of(DoubleUnaryOperator placeOf, double fromMm, double toMm) {
        int most = Math.max(1, (int) Math.ceil((toMm - fromMm) / STEP_MM));
        double[] places = new double[most];
        double[] widths = new double[most];
        int count = 0;
        for (int n = 0; n < most; n++) {
            double width = fromMm + (n + 1) * STEP_MM;
            double place = placeOf.applyAsDouble(width);
            // Where bone lifts the level at which the edge is sought, a place may fall back: such widths are left out.
            if (!Double.isNaN(place) && (count == 0 || place > places[count - 1])) {
                places[count] = place;
                widths[count++] = width;
            }
        }
        return new GapWidth(java.util.Arrays.copyOf(places, count), java.util.Arrays.copyOf(widths, count));
    }

    /** Width of the gap for a place; linear between the widths that were run, shifted as the nearest one outside. */
    double widthMm(double place) {
        int count = placeMm.length;
        if (count == 0 || Double.isNaN(place)) {
            return place;
        }
        if (place <= placeMm[0]) {
            return place + widthMm[0] - placeMm[0];
        }
        for (int n = 1; n < count; n++) {
            if (place <= placeMm[n]) {
                double share = (place - placeMm[n - 1]) / (placeMm[n] - placeMm[n - 1]);
                return widthMm[n - 1] + share * (widthMm[n] - widthMm[n - 1]);
            }
        }
        return place + widthMm[count - 1] - placeMm[count - 1];
    }
}
