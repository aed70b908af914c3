package org.holdfast.construct;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Where and how a part is looked at, in the space of the construct: two cuts at right angles through its middle and the
 * view onto its face. The same frame, moved with each exam, puts the same place of the part into the same place of every
 * picture. Immutable.
 *
 * @param middle where the cuts cross when the part is chosen
 * @param along cut along the part: with the load axis through a face or body, with the centre line of a screw or rod
 * @param across cut at right angles to it: of a face or body with the load axis too, of a screw or rod across it
 * @param faceOn view onto the face, or along the centre line's third side
 * @param halfWidthMm half of what the part takes up along the pictures' right
 * @param halfHeightMm half of what it takes up along the pictures' bottom
 */
public record PartFrame(
        PatientPoint middle, CutAxes along, CutAxes across, CutAxes faceOn, double halfWidthMm, double halfHeightMm) {

    public PartFrame {
        Objects.requireNonNull(middle, "middle");
        Objects.requireNonNull(along, "along");
        Objects.requireNonNull(across, "across");
        Objects.requireNonNull(faceOn, "faceOn");
        if (!(halfWidthMm > 0 && halfHeightMm > 0)) {
            throw new IllegalArgumentException(
                    "half width and height must be above 0, got " + halfWidthMm + " and " + halfHeightMm);
        }
    }

    /** The frame of a face: the normal is the load axis. */
    static PartFrame of(BoneInterface face, Axes axes) {
        Patch largest = face.patches().stream()
                .max(Comparator.comparingDouble(Patch::areaMm2))
                .orElseThrow();
        double reach = Math.sqrt(largest.areaMm2() / Math.PI);
        if (largest instanceof PlanePatch plane) {
            double half = Math.max(plane.halfUMm(), plane.halfVMm());
            return ofAxis(plane.centre(), plane.normal(), axes, half, Math.min(half, BESIDE_MM));
        }
        if (largest instanceof SpherePatch sphere) {
            PatientVector pole = sphere.pole().unit();
            return ofAxis(
                    sphere.centre().along(pole, sphere.radiusMm()), pole, axes, reach, Math.min(reach, BESIDE_MM));
        }
        if (largest instanceof SurfacePatch surface) {
            return ofAxis(surface.middle(), surface.meanNormal(), axes, reach, Math.min(reach, BESIDE_MM));
        }
        CylinderPatch cylinder = (CylinderPatch) largest;
        PatientPoint middle = midway(cylinder.p(), cylinder.q());
        return ofCentreLine(middle, cylinder.axis(), axes, cylinder.lengthMm() / 2);
    }

    /** The frame of a component by its shape; a mesh whose file was not read is looked at from the origin. */
    static PartFrame of(Component component, Axes axes) {
        if (component.shape() instanceof ScrewShape screw) {
            double middleMm = (screw.inBoneFromMm() + screw.inBoneToMm()) / 2;
            PatientPoint middle = screw.head().along(screw.direction(), middleMm);
            return ofCentreLine(middle, screw.direction(), axes, screw.lengthMm() / 2);
        }
        if (component.shape() instanceof RodShape rod) {
            List<PatientPoint> points = rod.points();
            PatientVector chord = points.get(points.size() - 1).minus(points.get(0));
            return ofCentreLine(halfwayOf(rod), chord, axes, rod.lengthMm() / 2);
        }
        if (component.shape() instanceof BoxShape box) {
            int up = nearest(box.axes(), axes.cranial());
            double reach = box.halfMm().stream().mapToDouble(h -> h).max().orElseThrow();
            return ofAxis(box.centre(), box.axes().get(up), axes, reach, reach);
        }
        if (component.shape() instanceof CylinderShape cylinder) {
            PatientVector axis = cylinder.q().minus(cylinder.p());
            return ofAxis(midway(cylinder.p(), cylinder.q()), axis, axes, axis.norm() / 2, axis.norm() / 2);
        }
        if (component.shape() instanceof MeshShape shape && shape.mesh().isPresent()) {
            double reach = shape.mesh().get().reachMm();
            return ofAxis(shape.mesh().get().middle(), axes.cranial(), axes, reach, reach);
        }
        return ofAxis(axes.origin(), axes.cranial(), axes, UNKNOWN_REACH_MM, UNKNOWN_REACH_MM);
    }

    private static final double UNKNOWN_REACH_MM = 30;
    /** Beside a screw or rod, and on both sides of a face, so much is shown, mm. */
    private static final double BESIDE_MM = 14;

    /** Both cuts hold the axis: one as near to the coronal plane as may be, one at right angles to it. */
    private static PartFrame ofAxis(
            PatientPoint middle, PatientVector axis, Axes axes, double halfWidthMm, double halfHeightMm) {
        PatientVector n = axis.unit();
        PatientVector side = Math.abs(n.dot(axes.left())) < 0.7 ? axes.left() : axes.cranial();
        PatientVector first = without(side, n);
        PatientVector second = n.cross(first).unit();
        return new PartFrame(
                middle,
                CutAxes.upright(n, first, axes),
                CutAxes.upright(n, second, axes),
                CutAxes.upright(first, second, axes),
                halfWidthMm,
                halfHeightMm);
    }

    /** One cut holds the centre line and is as upright as may be, the other crosses it. */
    private static PartFrame ofCentreLine(PatientPoint middle, PatientVector line, Axes axes, double halfLengthMm) {
        PatientVector d = line.unit();
        boolean runsUp = Math.abs(d.dot(axes.cranial())) > 0.7;
        PatientVector beside = without(runsUp ? axes.posterior() : axes.cranial(), d);
        PatientVector third = d.cross(beside).unit();
        CutAxes along = CutAxes.upright(d, beside, axes);
        boolean lies = Math.abs(along.right().dot(d)) > 0.5;
        return new PartFrame(
                middle,
                along,
                CutAxes.upright(third, beside, axes),
                CutAxes.upright(d, third, axes),
                lies ? halfLengthMm : BESIDE_MM,
                lies ? BESIDE_MM : halfLengthMm);
    }

    private static PatientVector without(PatientVector direction, PatientVector n) {
        return direction.minus(n.times(direction.dot(n))).unit();
    }

    private static int nearest(List<PatientVector> candidates, PatientVector wanted) {
        int best = 0;
        for (int n = 1; n < candidates.size(); n++) {
            if (Math.abs(candidates.get(n).dot(wanted))
                    > Math.abs(candidates.get(best).dot(wanted))) {
                best = n;
            }
        }
        return best;
    }

    private static PatientPoint midway(PatientPoint p, PatientPoint q) {
        return p.along(q.minus(p), 0.5);
    }

    /** The point of a rod's centre line that has half of its length on either side. */
    private static PatientPoint halfwayOf(RodShape rod) {
        double left = rod.lengthMm() / 2;
        List<PatientPoint> points = rod.points();
        for (int n = 1; n < points.size(); n++) {
            PatientVector piece = points.get(n).minus(points.get(n - 1));
            if (left <= piece.norm()) {
                return points.get(n - 1).along(piece.unit(), left);
            }
            left -= piece.norm();
        }
        return points.get(points.size() - 1);
    }
}
