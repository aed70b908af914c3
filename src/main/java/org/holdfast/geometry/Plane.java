package org.holdfast.geometry;

import java.util.Objects;

/**
 * An oriented plane: all points p with (p − point) · normal = 0.
 *
 * @param point any point on the plane
 * @param normal its unit normal; given at any length above 1e-12, kept at length 1
 */
public record Plane(PatientPoint point, PatientVector normal) {

    public Plane {
        Objects.requireNonNull(point, "point");
        normal = normal.unit();
    }

    /** Distance of a point from the plane in mm, positive on the side that the normal points to. */
    public double signedDistanceMm(PatientPoint p) {
        return p.minus(point).dot(normal);
    }
}
