package org.holdfast.construct;

import org.holdfast.geometry.PatientPoint;

/**
 * A circular cylinder with flat ends.
 *
 * @param p centre of one end, mm
 * @param q centre of the other end, apart from p, mm
 * @param radiusMm radius, mm
 */
public record CylinderShape(PatientPoint p, PatientPoint q, double radiusMm) implements Shape {
    public CylinderShape {
        Rule.apart("qMm", p, "pMm", q);
        Rule.positive("radiusMm", radiusMm);
    }

    @Override
    public double signedDistanceMm(PatientPoint point) {
        return CappedCylinder.signedDistanceMm(point, p, q, radiusMm);
    }
}
