package org.holdfast.phantom;

import org.holdfast.geometry.RigidTransform;

/** A solid in another place. */
final class MovedSolid implements Solid {

    private final Solid solid;
    private final double[] thereToHere;

    MovedSolid(Solid solid, RigidTransform hereToThere) {
        this.solid = solid;
        this.thereToHere = hereToThere.inverse().toMatrix();
    }

    private MovedSolid(Solid solid, double[] thereToHere) {
        this.solid = solid;
        this.thereToHere = thereToHere;
    }

    @Override
    public Solid near(double x, double y, double z, double reachMm) {
        double[] m = thereToHere;
        Solid simpler = solid.near(
                m[0] * x + m[1] * y + m[2] * z + m[3],
                m[4] * x + m[5] * y + m[6] * z + m[7],
                m[8] * x + m[9] * y + m[10] * z + m[11],
                reachMm);
        return simpler == solid ? this : new MovedSolid(simpler, thereToHere);
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double[] m = thereToHere;
        return solid.signedDistanceMm(
                m[0] * x + m[1] * y + m[2] * z + m[3],
                m[4] * x + m[5] * y + m[6] * z + m[7],
                m[8] * x + m[9] * y + m[10] * z + m[11]);
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double[] m = thereToHere;
        return solid.insideShare(
                m[0] * x + m[1] * y + m[2] * z + m[3],
                m[4] * x + m[5] * y + m[6] * z + m[7],
                m[8] * x + m[9] * y + m[10] * z + m[11],
                blurMm,
                insetMm);
    }
}
