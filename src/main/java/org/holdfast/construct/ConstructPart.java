package org.holdfast.construct;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;

/**
 * A part of a construct as a review goes through it: a component or an interface. Immutable.
 *
 * @param number 1-based place in the order of the review, cranial to caudal and from the patient's right to left
 * @param id id of the component or interface
 * @param label words for a reader
 * @param kind what it is
 * @param frame where and how it is looked at
 */
public record ConstructPart(int number, String id, String label, PartKind kind, PartFrame frame) {

    /** Parts whose middles lie within this height of each other stand side by side, mm. */
    private static final double SAME_HEIGHT_MM = 8;

    public ConstructPart {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(frame, "frame");
    }

    /** All components and interfaces of a construct, numbered in the order of the review. */
    public static List<ConstructPart> of(Construct construct) {
        Axes axes = construct.axes();
        List<ConstructPart> parts = new ArrayList<>();
        for (Component component : construct.components()) {
            PartFrame frame = PartFrame.of(component, axes);
            parts.add(new ConstructPart(0, component.id(), component.label(), kindOf(component), frame));
        }
        for (BoneInterface face : construct.interfaces()) {
            parts.add(new ConstructPart(0, face.id(), face.label(), PartKind.INTERFACE, PartFrame.of(face, axes)));
        }
        parts.sort(Comparator.comparingDouble((ConstructPart part) -> -part.heightMm(axes)));
        List<ConstructPart> ordered = new ArrayList<>();
        int from = 0;
        for (int n = 1; n <= parts.size(); n++) {
            double top = parts.get(from).heightMm(axes);
            if (n == parts.size() || top - parts.get(n).heightMm(axes) > SAME_HEIGHT_MM) {
                List<ConstructPart> sideBySide = parts.subList(from, n);
                sideBySide.sort(Comparator.comparingDouble(part -> part.leftMm(axes)));
                for (ConstructPart part : sideBySide) {
                    ordered.add(part.numbered(ordered.size() + 1));
                }
                from = n;
            }
        }
        return List.copyOf(ordered);
    }

    private ConstructPart numbered(int place) {
        return new ConstructPart(place, id, label, kind, frame);
    }

    private double heightMm(Axes axes) {
        return frame.middle().minus(axes.origin()).dot(axes.cranial());
    }

    private double leftMm(Axes axes) {
        return frame.middle().minus(axes.origin()).dot(axes.left());
    }

    private static PartKind kindOf(Component component) {
        return switch (component.kind().family()) {
            case SCREW -> PartKind.SCREW;
            case ROD -> PartKind.ROD;
            case BODY -> PartKind.BODY;
            default -> PartKind.OTHER;
        };
    }
}
