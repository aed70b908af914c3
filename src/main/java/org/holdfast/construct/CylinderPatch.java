package org.holdfast.construct;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The whole lateral surface of a circular cylinder, with normals away from its axis.
 *
 * <p>Map coordinates: u is mm along the axis from p, in (0, length); v is arc length in mm, in (0, 2π·radius), from the
 * direction {@link #zeroDirection()}, right-handed about p → q.
 *
 * @param p start of the axis, mm
 * @param q end of the axis, apart from p, mm
 * @param radiusMm radius, mm
 */
public record CylinderPatch(PatientPoint p, PatientPoint q, double radiusMm) implements Patch {

    public CylinderPatch {
        Rule.apart("qMm", p, "pMm", q);
        Rule.positive("radiusMm", radiusMm);
    }

    /** Length of the axis, mm. */
    public double lengthMm() {
        return p.distanceTo(q);
    }

    /** Unit direction p → q. */
    public PatientVector axis() {
        return q.minus(p).unit();
    }

    /** The direction at right angles to the axis where v = 0; fixed by the axis alone. */
    public PatientVector zeroDirection() {
        return axis().anyPerpendicular();
    }

    /** 2π·radius·length. */
    @Override
    public double areaMm2() {
        return 2 * Math.PI * radiusMm * lengthMm();
    }

    /** Rings of constant u, ascending from p; in a ring v ascends. A ring has at least 3 cells. */
    @Override
    public List<PatchSample> samples(double spacingMm) {
        EqualAreaRows.requireFewEnough(areaMm2(), spacingMm);
        int rings = EqualAreaRows.pieces(lengthMm(), spacingMm);
        int around = Math.max(3, EqualAreaRows.pieces(2 * Math.PI * radiusMm, spacingMm));
        double area = areaMm2() / ((double) rings * around);
        PatientVector axis = axis();
        PatientVector zero = zeroDirection();
        PatientVector quarter = axis.cross(zero);
        List<PatchSample> samples = new ArrayList<>();
        for (int ring = 0; ring < rings; ring++) {
            double u = lengthMm() * (ring + 0.5) / rings;
            for (int n = 0; n < around; n++) {
                double angle = 2 * Math.PI * (n + 0.5) / around;
                PatientVector normal = zero.times(Math.cos(angle))
                        .plus(quarter.times(Math.sin(angle)))
                        .unit();
                PatientPoint point = p.along(axis, u).along(normal, radiusMm);
                samples.add(new PatchSample(point, normal, area, u, radiusMm * angle));
            }
        }
        return List.copyOf(samples);
    }
}
