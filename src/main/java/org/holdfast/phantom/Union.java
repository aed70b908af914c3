package org.holdfast.phantom;

/**
 * The points that lie in either of two solids. The share outside is the product of both: exact where the two surfaces
 * meet at right angles, and away from where they meet. Two solids should overlap, not touch along a common face.
 */
public record Union(Solid a, Solid b) implements Solid {

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return Math.min(a.signedDistanceMm(x, y, z), b.signedDistanceMm(x, y, z));
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double outside = 1 - a.insideShare(x, y, z, blurMm, insetMm);
        return outside == 0 ? 1 : 1 - outside * (1 - b.insideShare(x, y, z, blurMm, insetMm));
    }
}
