package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.SpherePatch;
import org.holdfast.construct.SurfacePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Lays a face out flat, mm to the right and down from a reference place. Immutable.
 *
 * <p>Flat patches, and faces of several patches, are seen along the face-on direction. A single cylinder is unrolled: the
 * side that faces the viewer lies in the middle, its axis runs as it does in the face-on view, arc length across it. A
 * single spherical cap is drawn by the equal-area projection of its own map, turned so that its middle agrees with the
 * face-on view.
 */
final class FaceLayout {

    private static final int ELLIPSE_CORNERS = 180;

    private final PatientPoint reference;
    private final Place place;
    private final List<List<FlatPlace>> outlines;
    private final Optional<PatientVector> right;
    private final Optional<PatientVector> down;

    /** A place on the layout, mm to the right and down of the reference place. */
    record FlatPlace(double rightMm, double downMm) {}

    private interface Place {
        FlatPlace of(PatchSample sample);
    }

    private FaceLayout(
            PatientPoint reference,
            Place place,
            List<List<FlatPlace>> outlines,
            Optional<PatientVector> right,
            Optional<PatientVector> down) {
        this.reference = reference;
        this.place = place;
        this.outlines = List.copyOf(outlines);
        this.right = right;
        this.down = down;
    }

    static FaceLayout of(List<Patch> patches, CutAxes faceOn) {
        if (patches.size() == 1 && patches.get(0) instanceof CylinderPatch cylinder) {
            return unrolled(cylinder, faceOn);
        }
        if (patches.size() == 1 && patches.get(0) instanceof SpherePatch sphere) {
            return projected(sphere, faceOn);
        }
        return seen(patches, faceOn);
    }

    private static FaceLayout seen(List<Patch> patches, CutAxes faceOn) {
        PatientPoint reference = referenceOf(patches.get(0));
        List<List<FlatPlace>> outlines = new ArrayList<>();
        for (Patch patch : patches) {
            if (patch instanceof PlanePatch plane) {
                outlines.add(outline(plane, reference, faceOn));
            }
        }
        return new FaceLayout(
                reference,
                sample -> flat(sample.point(), reference, faceOn),
                outlines,
                Optional.of(faceOn.right()),
                Optional.of(faceOn.down()));
    }

    private static PatientPoint referenceOf(Patch patch) {
        if (patch instanceof PlanePatch plane) {
            return plane.centre();
        }
        if (patch instanceof SpherePatch sphere) {
            return sphere.centre().along(sphere.pole().unit(), sphere.radiusMm());
        }
        if (patch instanceof SurfacePatch surface) {
            return surface.middle();
        }
        CylinderPatch cylinder = (CylinderPatch) patch;
        return cylinder.p().towards(cylinder.q(), 0.5);
    }

    private static FlatPlace flat(PatientPoint point, PatientPoint reference, CutAxes axes) {
        PatientVector way = point.minus(reference);
        return new FlatPlace(way.dot(axes.right()), way.dot(axes.down()));
    }

    private static List<FlatPlace> outline(PlanePatch plane, PatientPoint reference, CutAxes faceOn) {
        boolean isRectangle = plane.outline() == PlanePatch.Outline.RECTANGLE;
        int corners = isRectangle ? 4 : ELLIPSE_CORNERS;
        List<FlatPlace> line = new ArrayList<>();
        for (int n = 0; n < corners; n++) {
            // A rectangle's corners lie at 45°, 135° … , at √2 half-widths.
            double angle = 2 * Math.PI * (n + 0.5) / corners;
            double reach = isRectangle ? Math.sqrt(2) : 1;
            PatientPoint corner = plane.centre()
                    .along(plane.u().unit(), reach * Math.cos(angle) * plane.halfUMm())
                    .along(plane.v().unit(), reach * Math.sin(angle) * plane.halfVMm());
            line.add(flat(corner, reference, faceOn));
        }
        return line;
    }

    private static FaceLayout unrolled(CylinderPatch cylinder, CutAxes faceOn) {
        PatientVector axis = cylinder.axis();
        PatientVector towardsViewer = faceOn.normal().times(-1);
        PatientVector front = towardsViewer.minus(axis.times(towardsViewer.dot(axis)));
        // Seen along its axis a cylinder has no front; then its own start of counting takes that place.
        front = front.norm() > 1e-6 ? front.unit() : cylinder.zeroDirection();
        PatientVector aside = axis.cross(front);
        boolean isUpright = Math.abs(axis.dot(faceOn.down())) >= Math.abs(axis.dot(faceOn.right()));
        double alongSign = axis.dot(isUpright ? faceOn.down() : faceOn.right()) >= 0 ? 1 : -1;
        double asideSign = aside.dot(isUpright ? faceOn.right() : faceOn.down()) >= 0 ? 1 : -1;
        PatientVector middle = front;
        double length = cylinder.lengthMm();
        Place place = sample -> {
            PatientVector out = sample.normal();
            double arc = cylinder.radiusMm() * Math.atan2(out.dot(aside), out.dot(middle));
            double along = alongSign * (sample.uMm() - length / 2);
            return isUpright ? new FlatPlace(asideSign * arc, along) : new FlatPlace(along, asideSign * arc);
        };
        double halfRound = Math.PI * cylinder.radiusMm();
        double halfX = isUpright ? halfRound : length / 2;
        double halfY = isUpright ? length / 2 : halfRound;
        PatientVector lengthwise = axis.times(alongSign);
        return new FaceLayout(
                referenceOf(cylinder).along(front, cylinder.radiusMm()),
                place,
                List.of(rectangle(halfX, halfY)),
                isUpright ? Optional.empty() : Optional.of(lengthwise),
                isUpright ? Optional.of(lengthwise) : Optional.empty());
    }

    private static List<FlatPlace> rectangle(double halfX, double halfY) {
        return List.of(
                new FlatPlace(-halfX, -halfY),
                new FlatPlace(halfX, -halfY),
                new FlatPlace(halfX, halfY),
                new FlatPlace(-halfX, halfY));
    }

    private static FaceLayout projected(SpherePatch sphere, CutAxes faceOn) {
        PatientVector zero = sphere.zeroDirection();
        PatientVector quarter = sphere.pole().unit().cross(zero);
        Place place = sample -> {
            PatientVector way = zero.times(sample.uMm()).plus(quarter.times(sample.vMm()));
            return new FlatPlace(way.dot(faceOn.right()), way.dot(faceOn.down()));
        };
        double rim = 2 * sphere.radiusMm() * Math.sin(Math.toRadians(sphere.halfAngleDeg()) / 2);
        List<FlatPlace> line = new ArrayList<>();
        for (int n = 0; n < ELLIPSE_CORNERS; n++) {
            double angle = 2 * Math.PI * n / ELLIPSE_CORNERS;
            PatientVector way = zero.times(rim * Math.cos(angle)).plus(quarter.times(rim * Math.sin(angle)));
            line.add(new FlatPlace(way.dot(faceOn.right()), way.dot(faceOn.down())));
        }
        return new FaceLayout(
                referenceOf(sphere), place, List.of(line), Optional.of(faceOn.right()), Optional.of(faceOn.down()));
    }

    /** The place that is laid out at (0, 0). */
    PatientPoint reference() {
        return reference;
    }

    /** Where a sample lies, mm to the right and down. */
    FlatPlace placeMm(PatchSample sample) {
        return place.of(sample);
    }

    /** Closed lines around the patches, mm to the right and down. */
    List<List<FlatPlace>> outlines() {
        return outlines;
    }

    /** Direction of the map's right; empty where it runs round the implant. */
    Optional<PatientVector> right() {
        return right;
    }

    /** Direction of the map's bottom; empty where it runs round the implant. */
    Optional<PatientVector> down() {
        return down;
    }
}
