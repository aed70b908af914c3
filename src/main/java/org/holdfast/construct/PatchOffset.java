package org.holdfast.construct;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Where a point lies in front of a patch.
 *
 * @param heightMm distance from the patch's surface along its outward normal, negative behind it, mm
 * @param outsideMm how far the point's foot on the surface lies outside the patch's outline, mm; 0 or negative inside. For
 *     an ellipse it is measured along the ray from the centre; of a piece of a mesh it is 0 inside.
 */
public record PatchOffset(double heightMm, double outsideMm) {

    /** The offset of a point from a patch. */
    public static PatchOffset of(Patch patch, PatientPoint p) {
        if (patch instanceof PlanePatch plane) {
            return ofPlane(plane, p);
        }
        if (patch instanceof CylinderPatch cylinder) {
            return ofCylinder(cylinder, p);
        }
        if (patch instanceof SurfacePatch surface) {
            return surface.offset(p);
        }
        return ofSphere((SpherePatch) patch, p);
    }

    private static PatchOffset ofPlane(PlanePatch patch, PatientPoint p) {
        PatientVector d = p.minus(patch.centre());
        double u = d.dot(patch.u());
        double v = d.dot(patch.v());
        double outside;
        if (patch.outline() == PlanePatch.Outline.RECTANGLE) {
            outside = Math.max(Math.abs(u) - patch.halfUMm(), Math.abs(v) - patch.halfVMm());
        } else {
            double scale = Math.hypot(u / patch.halfUMm(), v / patch.halfVMm());
            outside = scale < 1e-9 ? -Math.min(patch.halfUMm(), patch.halfVMm()) : Math.hypot(u, v) * (1 - 1 / scale);
        }
        return new PatchOffset(d.dot(patch.normal()), outside);
    }

    private static PatchOffset ofCylinder(CylinderPatch patch, PatientPoint point) {
        PatientVector axis = patch.q().minus(patch.p());
        double length = axis.norm();
        PatientVector d = point.minus(patch.p());
        double along = d.dot(axis) / length;
        double radial = d.minus(axis.times(along / length)).norm();
        return new PatchOffset(radial - patch.radiusMm(), Math.max(-along, along - length));
    }

    private static PatchOffset ofSphere(SpherePatch patch, PatientPoint p) {
        PatientVector d = p.minus(patch.centre());
        double angleDeg = d.norm() < 1e-9 ? 180 : d.angleDegTo(patch.pole());
        return new PatchOffset(
                d.norm() - patch.radiusMm(), Math.toRadians(angleDeg - patch.halfAngleDeg()) * patch.radiusMm());
    }
}
