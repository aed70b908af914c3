package org.holdfast.measure;

/**
 * The published rule for proximal junctional kyphosis: the proximal junctional angle exceeds 10° and has grown by at least
 * 10° since before the operation (Asian Spine J 2022;16:440). The angles come from whoever measured them, kyphosis
 * positive.
 */
public final class ProximalJunction {

    /** The angle must exceed this, degrees. */
    public static final double ANGLE_DEG = 10;

    /** And have grown by at least this, degrees. */
    public static final double GROWTH_DEG = 10;

    private ProximalJunction() {}

    /**
     * Whether the rule is met; compared as the numbers are, without rounding.
     *
     * @param beforeDeg angle before the operation, degrees, finite
     * @param afterDeg angle at follow-up, degrees, finite
     */
    public static boolean isKyphosis(double beforeDeg, double afterDeg) {
        if (!Double.isFinite(beforeDeg) || !Double.isFinite(afterDeg)) {
            throw new IllegalArgumentException("angles must be finite, got " + beforeDeg + " and " + afterDeg);
        }
        return afterDeg > ANGLE_DEG && afterDeg - beforeDeg >= GROWTH_DEG;
    }
}
