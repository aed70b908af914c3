package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Everything on one side of a plane.
 *
 * @param point any point of the plane
 * @param outward unit normal that points out of the half-space; given at any length above 1e-12
 */
public record HalfSpace(PatientPoint point, PatientVector outward) implements Solid {

    public HalfSpace {
        outward = outward.unit();
    }

    @Override
    public double signedDistanceMm(double x, double y, double z) {
        return (x - point.x()) * outward.x() + (y - point.y()) * outward.y() + (z - point.z()) * outward.z();
    }
}
