package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/**
 * A closed region of patient space given by its signed distance. Implementations are immutable and safe to share between
 * threads.
 */
public interface Solid {

    /**
     * Signed distance of a point from the surface, mm: negative inside, positive outside.
     *
     * <p>Exact, or a bound: never farther from 0 than the true distance, and of the right sign. The simulator leaves out
     * regions on the strength of this value.
     */
    double signedDistanceMm(double x, double y, double z);

    /**
     * Share of an isotropic Gaussian round a point that lies in this solid, 0 to 1.
     *
     * <p>The default, Φ(−(d + inset) / blur), is exact for a plane surface. A curved surface or an edge overrides it so
     * that the error stays of third order in blur / radius.
     *
     * @param blurMm standard deviation of the Gaussian, mm, &gt; 0 and small against the solid's radii and thickness
     * @param insetMm the solid is first shrunk by this depth, mm, ≥ 0; negative grows it
     */
    default double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        return GaussianStep.below(-(signedDistanceMm(x, y, z) + insetMm) / blurMm);
    }

    /**
     * A solid that has the same points and the same distances from its surface as this one wherever it matters within
     * reach of a point; this one, or a simpler one that is faster to ask.
     *
     * @param reachMm radius round the point, the deepest inset included, mm
     */
    default Solid near(double x, double y, double z, double reachMm) {
        return this;
    }

    /** Signed distance of a point from the surface, mm. */
    default double signedDistanceMm(PatientPoint p) {
        return signedDistanceMm(p.x(), p.y(), p.z());
    }

    /** Whether a point lies inside or on the surface. */
    default boolean contains(PatientPoint p) {
        return signedDistanceMm(p) <= 0;
    }

    /** This solid in another place. */
    default Solid moved(RigidTransform hereToThere) {
        return new MovedSolid(this, hereToThere);
    }

    /** The points that lie in both solids. */
    default Solid and(Solid other) {
        return new Intersection(this, other);
    }

    /** The points that lie in either solid. */
    default Solid or(Solid other) {
        return Union.of(this, other);
    }

    /** The points of this solid that do not lie in the other. */
    default Solid without(Solid other) {
        return new Intersection(this, new Complement(other));
    }
}
