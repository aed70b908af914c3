package org.holdfast.construct;

import org.holdfast.geometry.PatientPoint;

/** Where a component lies, in patient space of the reference exam, mm. */
public sealed interface Shape permits ScrewShape, RodShape, BoxShape, CylinderShape, MeshShape {

    /**
     * Whether this version can compute {@link #signedDistanceMm}; false only for a {@link MeshShape} whose file
     * was not read.
     */
    default boolean hasDistance() {
        return true;
    }

    /**
     * Signed distance of a point from the part's surface in mm: negative inside, 0 on the surface, positive outside.
     * The sign is always exact. Outside the value is the distance; inside it is the distance or nearer to 0 than it.
     *
     * @throws UnsupportedOperationException if {@link #hasDistance()} is false
     */
    double signedDistanceMm(PatientPoint p);
}
