package org.holdfast.phantom;

/**
 * A solid shrunk by a depth.
 *
 * @param solid what is shrunk
 * @param depthMm by how much, mm, ≥ 0
 */
record Inset(Solid solid, double depthMm) implements Solid {

    /** A bound outside the inset surface only as good as the solid's own distance inside. */
    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return solid.signedDistanceMm(x, y, z) + depthMm;
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return solid.insideShare(x, y, z, blurMm, insetMm + depthMm);
    }

    @Override
    public Solid near(double x, double y, double z, double reachMm) {
        Solid simpler = solid.near(x, y, z, reachMm + depthMm);
        return simpler == solid ? this : new Inset(simpler, depthMm);
    }
}
