package org.holdfast.figure;

/**
 * A place in a drawing. Immutable.
 *
 * @param x logical pixels from the left edge
 * @param y logical pixels from the top edge
 */
public record FigurePoint(double x, double y) {

    public FigurePoint {
        if (!Double.isFinite(x) || !Double.isFinite(y)) {
            throw new IllegalArgumentException("coordinates must be finite, got " + x + ", " + y);
        }
    }
}
