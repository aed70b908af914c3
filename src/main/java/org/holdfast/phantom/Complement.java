package org.holdfast.phantom;

/**
 * Everything outside a solid.
 *
 * @param solid what is left out
 */
public record Complement(Solid solid) implements Solid {

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return -solid.signedDistanceMm(x, y, z);
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return 1 - solid.insideShare(x, y, z, blurMm, -insetMm);
    }
}
