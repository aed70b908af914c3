package org.holdfast.regions;

/**
 * A place on a cut, in pixels; a pixel's centre has integer coordinates.
 *
 * @param x to the right; finite
 * @param y down; finite
 */
public record PixelPoint(double x, double y) {

    public PixelPoint {
        if (!Double.isFinite(x) || !Double.isFinite(y)) {
            throw new IllegalArgumentException("a place must be finite, got (" + x + ", " + y + ")");
        }
    }

    /** Twice the signed area of the triangle from this point to two others; its sign tells the turn. */
    double turn(PixelPoint to, PixelPoint then) {
        return (to.x - x) * (then.y - y) - (to.y - y) * (then.x - x);
    }
}
