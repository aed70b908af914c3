package org.holdfast.volume;

/**
 * The line from stored values to HU of one slice: HU = slope · stored + intercept.
 *
 * @param slope HU per stored unit, finite and not 0
 * @param intercept HU of the stored value 0, finite
 */
public record Rescale(double slope, double intercept) {

    public Rescale {
        if (!Double.isFinite(slope) || slope == 0 || !Double.isFinite(intercept)) {
            throw new IllegalArgumentException(
                    "slope must be finite and not 0 and intercept finite, got " + slope + " and " + intercept);
        }
    }

    /** HU of a stored value. */
    public double hu(double stored) {
        return slope * stored + intercept;
    }

    /** Whether every whole stored value gives a whole HU value. */
    boolean keepsWholeNumbers() {
        return slope == Math.rint(slope) && intercept == Math.rint(intercept);
    }
}
