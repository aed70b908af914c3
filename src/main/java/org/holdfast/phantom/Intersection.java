package org.holdfast.phantom;

/**
 * The points that lie in both of two solids. The inside share is the product of both: exact where the two surfaces meet
 * at right angles, and away from where they meet.
 */
public record Intersection(Solid a, Solid b) implements Solid {

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return Math.max(a.signedDistanceMm(x, y, z), b.signedDistanceMm(x, y, z));
    }

    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double first = a.insideShare(x, y, z, blurMm, insetMm);
        return first == 0 ? 0 : first * b.insideShare(x, y, z, blurMm, insetMm);
    }

    @Override
    public Solid near(double x, double y, double z, double reachMm) {
        if (a.signedDistanceMm(x, y, z) < -reachMm) {
            return b.near(x, y, z, reachMm);
        }
        if (b.signedDistanceMm(x, y, z) < -reachMm) {
            return a.near(x, y, z, reachMm);
        }
        Solid nearA = a.near(x, y, z, reachMm);
        Solid nearB = b.near(x, y, z, reachMm);
        return nearA == a && nearB == b ? this : new Intersection(nearA, nearB);
    }
}
