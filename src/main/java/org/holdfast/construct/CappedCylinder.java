package org.holdfast.construct;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Distance from a solid circular cylinder with flat ends. */
final class CappedCylinder {

    private CappedCylinder() {}

    /** Exact signed distance in mm, negative inside; the ends p and q must lie apart. */
    static double signedDistanceMm(PatientPoint point, PatientPoint p, PatientPoint q, double radiusMm) {
        PatientVector axis = q.minus(p);
        double length = axis.norm();
        PatientVector offset = point.minus(p);
        double along = offset.dot(axis) / length;
        double across = offset.minus(axis.times(along / length)).norm();
        double beyondSide = across - radiusMm;
        double beyondEnd = Math.abs(along - 0.5 * length) - 0.5 * length;
        return beyondSide > 0 && beyondEnd > 0 ? Math.hypot(beyondSide, beyondEnd) : Math.max(beyondSide, beyondEnd);
    }
}
