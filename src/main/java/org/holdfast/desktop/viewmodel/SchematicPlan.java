package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.CylinderShape;
import org.holdfast.construct.PartKind;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.construct.SpherePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A construct seen from the front, in its own axes: what a schematic draws, before it is fitted into a picture. A part whose
 * shape has no place of its own (a mesh, which only its file places) is not in it. Immutable.
 *
 * @param parts what is drawn, in the order of the review
 * @param bones where the bones are hinted at
 */
public record SchematicPlan(List<FrontPart> parts, List<FrontBone> bones) {

    public SchematicPlan {
        parts = List.copyOf(parts);
        bones = List.copyOf(bones);
    }

    /** The plan of a construct. */
    public static SchematicPlan of(Construct construct, List<ConstructPart> parts) {
        List<FrontPart> drawn = new ArrayList<>();
        for (ConstructPart part : parts) {
            outlineOf(construct, part).ifPresent(drawn::add);
        }
        List<FrontBone> bones = new ArrayList<>();
        for (Bone bone : construct.bones()) {
            BoneHint.of(construct, drawn, bone).ifPresent(bones::add);
        }
        return new SchematicPlan(drawn, bones);
    }

    private static Optional<FrontPart> outlineOf(Construct construct, ConstructPart part) {
        Axes axes = construct.axes();
        if (part.kind() == PartKind.INTERFACE) {
            BoneInterface face = construct.interfaceById(part.id());
            Optional<FrontPoint> owner =
                    shapeOf(construct.component(face.component()), part, axes).map(FrontPart::middle);
            return Optional.of(new FrontPart(part, FrontPart.Outline.LINE, faceEnds(face, axes), false, owner));
        }
        return shapeOf(construct.component(part.id()), part, axes);
    }

    private static Optional<FrontPart> shapeOf(Component component, ConstructPart part, Axes axes) {
        if (component.shape() instanceof ScrewShape screw) {
            return Optional.of(line(part, List.of(front(screw.head(), axes), front(screw.tip(), axes))));
        }
        if (component.shape() instanceof RodShape rod) {
            return Optional.of(
                    line(part, rod.points().stream().map(p -> front(p, axes)).toList()));
        }
        if (component.shape() instanceof CylinderShape cylinder) {
            double r = cylinder.radiusMm();
            return Optional.of(area(component, part, List.of(front(cylinder.p(), axes), front(cylinder.q(), axes)), r));
        }
        if (component.shape() instanceof BoxShape box) {
            return Optional.of(area(component, part, cornersOf(box, axes), 0));
        }
        return Optional.empty();
    }

    private static FrontPart line(ConstructPart part, List<FrontPoint> points) {
        return new FrontPart(part, FrontPart.Outline.LINE, points, false, Optional.empty());
    }

    private static FrontPart area(Component component, ConstructPart part, List<FrontPoint> points, double beyondMm) {
        double left = points.stream().mapToDouble(FrontPoint::leftMm).min().orElseThrow();
        double right = points.stream().mapToDouble(FrontPoint::leftMm).max().orElseThrow();
        double top = points.stream().mapToDouble(FrontPoint::downMm).min().orElseThrow();
        double bottom = points.stream().mapToDouble(FrontPoint::downMm).max().orElseThrow();
        List<FrontPoint> corners = List.of(
                new FrontPoint(left - beyondMm, top - beyondMm), new FrontPoint(right + beyondMm, bottom + beyondMm));
        return new FrontPart(
                part, FrontPart.Outline.AREA, corners, component.porous().isPresent(), Optional.empty());
    }

    private static List<FrontPoint> cornersOf(BoxShape box, Axes axes) {
        List<FrontPoint> corners = new ArrayList<>();
        for (int n = 0; n < 8; n++) {
            PatientPoint corner = box.centre();
            for (int axis = 0; axis < 3; axis++) {
                double half = box.halfMm().get(axis);
                corner = corner.along(box.axes().get(axis), (n >> axis & 1) == 0 ? -half : half);
            }
            corners.add(front(corner, axes));
        }
        return corners;
    }

    /** The two ends of a face's largest piece seen edge on; of one seen from the front, its width. */
    private static List<FrontPoint> faceEnds(BoneInterface face, Axes axes) {
        Patch largest = face.patches().stream()
                .max(Comparator.comparingDouble(Patch::areaMm2))
                .orElseThrow();
        if (largest instanceof CylinderPatch cylinder) {
            return List.of(front(cylinder.p(), axes), front(cylinder.q(), axes));
        }
        if (largest instanceof PlanePatch plane) {
            double halfMm = Math.max(plane.halfUMm(), plane.halfVMm());
            return ends(plane.centre(), plane.normal(), halfMm, axes);
        }
        SpherePatch sphere = (SpherePatch) largest;
        double halfMm = sphere.radiusMm() * Math.sin(Math.toRadians(Math.min(90, sphere.halfAngleDeg())));
        return ends(sphere.centre().along(sphere.pole(), sphere.radiusMm()), sphere.pole(), halfMm, axes);
    }

    private static List<FrontPoint> ends(PatientPoint middle, PatientVector normal, double halfMm, Axes axes) {
        double acrossLeft = normal.dot(axes.cranial());
        double acrossDown = normal.dot(axes.left());
        double length = Math.hypot(acrossLeft, acrossDown);
        double left = length < 0.3 ? halfMm : halfMm * Math.abs(acrossLeft) / length;
        double down = length < 0.3 ? 0 : halfMm * acrossDown * Math.signum(acrossLeft) / length;
        FrontPoint at = front(middle, axes);
        return List.of(
                new FrontPoint(at.leftMm() - left, at.downMm() - down),
                new FrontPoint(at.leftMm() + left, at.downMm() + down));
    }

    private static FrontPoint front(PatientPoint point, Axes axes) {
        PatientVector offset = point.minus(axes.origin());
        return new FrontPoint(offset.dot(axes.left()), -offset.dot(axes.cranial()));
    }
}
