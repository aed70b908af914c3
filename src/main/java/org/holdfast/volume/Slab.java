package org.holdfast.volume;

import java.util.Objects;

/**
 * A layer of a thickness on both sides of a plane that is drawn into one picture.
 *
 * @param thicknessMm whole thickness, mm, above 0; half of it lies on each side
 * @param projection how the values through the layer become one
 */
public record Slab(double thicknessMm, Projection projection) {

    /** How the values along a line through a slab become one. */
    public enum Projection {
        /** Their mean over the thickness. */
        MEAN,
        /** The largest. */
        MAXIMUM
    }

    public Slab {
        Objects.requireNonNull(projection, "projection");
        if (!(thicknessMm > 0) || Double.isInfinite(thicknessMm)) {
            throw new IllegalArgumentException("thicknessMm must be above 0, got " + thicknessMm);
        }
    }
}
