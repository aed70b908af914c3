package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.CylinderShape;
import org.holdfast.construct.PartFrame;
import org.holdfast.construct.PartKind;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The construct from the front as a drawing plan: the patient's right on the left, head up, mm from the construct's origin,
 * y downwards. Screws are turned into the picture, since from the front they would be dots. Immutable.
 *
 * @param items one a part that has a place, in the order of the review
 * @param bones outlines of the bones that are known of
 */
public record SchematicPlan(List<Item> items, List<BoneOutline> bones) {

    /** A screw turned into the picture is drawn at this share of its length. */
    private static final double TURNED = 0.62;
    /** A bone reaches this far beyond what is known of it, mm. */
    private static final double BONE_MARGIN_MM = 11;

    private static final double LEAST_BONE_MM = 20;
    private static final double FACE_THICK_MM = 2.5;
    /** Bodies and faces are drawn at this share of their width, so that there is room between them and the rods. */
    private static final double NARROWED = 0.82;
    /** Screws at heights this close are a pair, mm. */
    private static final double PAIR_MM = 8;
    /** Each screw of a pair ends at this share of the way to the middle between their heads. */
    private static final double PAIR_REACH = 0.78;

    /**
     * A part on the plan.
     *
     * @param part the part
     * @param x1 left end, or head of a screw, or upper end of a rod
     * @param y1 the same
     * @param x2 right end, or tip, or lower end
     * @param y2 the same
     * @param thickMm thickness of a bar, 0 for a box whose corners are given
     */
    public record Item(ConstructPart part, double x1, double y1, double x2, double y2, double thickMm) {}

    /**
     * A bone on the plan.
     *
     * @param label what it is called
     * @param left left side
     * @param top upper side
     * @param right right side
     * @param bottom lower side
     */
    public record BoneOutline(String label, double left, double top, double right, double bottom) {}

    public SchematicPlan {
        items = List.copyOf(items);
        bones = List.copyOf(bones);
    }

    /** The plan of a construct. */
    public static SchematicPlan of(Construct construct, List<ConstructPart> parts) {
        List<Item> items = new ArrayList<>();
        for (ConstructPart part : parts) {
            item(construct, part).ifPresent(items::add);
        }
        List<Item> apart = items.stream().map(item -> apart(item, items)).toList();
        return new SchematicPlan(apart, bones(construct, apart));
    }

    /** A screw cut short so that it does not run into its neighbour, which in truth lies beside it. */
    private static Item apart(Item item, List<Item> all) {
        Item shorter = item;
        for (Item other : all) {
            boolean isPair = item.part().kind() == PartKind.SCREW
                    && other.part().kind() == PartKind.SCREW
                    && other != item
                    && Math.abs(item.y1() - other.y1()) < PAIR_MM;
            double reach = PAIR_REACH * (other.x1() - item.x1()) / 2;
            if (isPair && reach * (item.x2() - item.x1()) > 0 && Math.abs(reach) < Math.abs(shorter.x2() - item.x1())) {
                shorter = new Item(item.part(), item.x1(), item.y1(), item.x1() + reach, item.y2(), item.thickMm());
            }
        }
        return shorter;
    }

    private static Optional<Item> item(Construct construct, ConstructPart part) {
        if (part.kind() == PartKind.INTERFACE) {
            return Optional.of(face(construct, part));
        }
        Component component = construct.component(part.id());
        if (component.shape() instanceof ScrewShape screw) {
            double headX = x(construct, screw.head());
            double tipX = x(construct, screw.tip());
            double y = (y(construct, screw.head()) + y(construct, screw.tip())) / 2;
            double middleX = x(construct, construct.axes().origin());
            double side = Math.abs(tipX - headX) > 1 ? Math.signum(tipX - headX) : Math.signum(middleX - headX);
            double end = headX + (side == 0 ? 1 : side) * screw.lengthMm() * TURNED;
            return Optional.of(new Item(part, headX, y, end, y, screw.diameterMm()));
        }
        if (component.shape() instanceof RodShape rod) {
            PatientPoint first = rod.points().get(0);
            PatientPoint last = rod.points().get(rod.points().size() - 1);
            boolean down = y(construct, first) <= y(construct, last);
            PatientPoint top = down ? first : last;
            PatientPoint bottom = down ? last : first;
            return Optional.of(new Item(
                    part,
                    x(construct, top),
                    y(construct, top),
                    x(construct, bottom),
                    y(construct, bottom),
                    rod.diameterMm()));
        }
        if (component.shape() instanceof BoxShape || component.shape() instanceof CylinderShape) {
            PartFrame frame = part.frame();
            double width = NARROWED * extent(component, construct.axes().left(), frame.halfWidthMm());
            double height = extent(component, construct.axes().cranial(), frame.halfHeightMm());
            double x = x(construct, frame.middle());
            double y = y(construct, frame.middle());
            return Optional.of(new Item(part, x - width, y - height, x + width, y + height, 0));
        }
        return Optional.empty();
    }

    private static double extent(Component component, PatientVector direction, double otherwise) {
        if (component.shape() instanceof BoxShape box) {
            double sum = 0;
            for (int axis = 0; axis < 3; axis++) {
                sum += Math.abs(box.axes().get(axis).dot(direction))
                        * box.halfMm().get(axis);
            }
            return sum;
        }
        return otherwise;
    }

    /** A face edge on: across the picture, or upright where it looks to the side; then it stands off its body. */
    private static Item face(Construct construct, ConstructPart part) {
        PartFrame frame = part.frame();
        CutAxes along = frame.along();
        PatientVector normal = frame.faceOn().right().cross(frame.faceOn().down());
        boolean isUpright =
                Math.abs(along.right().dot(normal)) > Math.abs(along.down().dot(normal));
        PatientVector edge = isUpright ? along.down() : along.right();
        PatientVector half = edge.times((isUpright ? 1 : NARROWED) * frame.halfWidthMm());
        PatientPoint from = frame.middle().plus(half.times(-1));
        PatientPoint to = frame.middle().plus(half);
        double shift = isUpright ? standOff(construct, part) : 0;
        return new Item(
                part,
                x(construct, from) + shift,
                y(construct, from),
                x(construct, to) + shift,
                y(construct, to),
                FACE_THICK_MM);
    }

    /** How far a face at the side moves: in with its narrowed body, then out by its own thickness. */
    private static double standOff(Construct construct, ConstructPart part) {
        Component owner = construct.component(construct.interfaceById(part.id()).component());
        if (owner.shape() instanceof BoxShape box) {
            double off = x(construct, part.frame().middle()) - x(construct, box.centre());
            return (NARROWED - 1) * off + Math.signum(off) * FACE_THICK_MM;
        }
        return 0;
    }

    /** A bone reaches from its interface over its screws. */
    private static List<BoneOutline> bones(Construct construct, List<Item> items) {
        Map<String, double[]> extents = new LinkedHashMap<>();
        for (Item item : items) {
            boneOf(construct, item.part()).ifPresent(bone -> {
                double[] e = extents.computeIfAbsent(bone, id ->
                        new double[] {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE});
                boolean isFace = item.part().kind() == PartKind.INTERFACE;
                double inner = isFace ? Math.min(item.x1(), item.x2()) : Math.min(item.x1(), item.x2()) + 4;
                double outer = isFace ? Math.max(item.x1(), item.x2()) : Math.max(item.x1(), item.x2()) - 4;
                e[0] = Math.min(e[0], inner);
                e[2] = Math.max(e[2], outer);
                double around = isFace ? 0 : BONE_MARGIN_MM;
                e[1] = Math.min(e[1], Math.min(item.y1(), item.y2()) - around);
                e[3] = Math.max(e[3], Math.max(item.y1(), item.y2()) + around);
            });
        }
        List<BoneOutline> outlines = new ArrayList<>();
        extents.forEach((id, e) -> {
            double lacking = Math.max(0, LEAST_BONE_MM - (e[3] - e[1]));
            double narrow = Math.max(0, LEAST_BONE_MM - (e[2] - e[0])) / 2;
            boolean isAbove = e[1] + e[3] < middleY(items);
            outlines.add(new BoneOutline(
                    construct.bone(id).label(),
                    e[0] - narrow,
                    isAbove ? e[1] - lacking : e[1],
                    e[2] + narrow,
                    isAbove ? e[3] : e[3] + lacking));
        });
        return outlines;
    }

    private static double middleY(List<Item> items) {
        double top = items.stream()
                .mapToDouble(item -> Math.min(item.y1(), item.y2()))
                .min()
                .orElse(0);
        double bottom = items.stream()
                .mapToDouble(item -> Math.max(item.y1(), item.y2()))
                .max()
                .orElse(0);
        return top + bottom;
    }

    private static Optional<String> boneOf(Construct construct, ConstructPart part) {
        if (part.kind() == PartKind.INTERFACE) {
            return construct.interfaces().stream()
                    .filter(face -> face.id().equals(part.id()))
                    .map(BoneInterface::bone)
                    .findFirst();
        }
        return construct.component(part.id()).shape() instanceof ScrewShape screw
                ? Optional.of(screw.bone())
                : Optional.empty();
    }

    private static double x(Construct construct, PatientPoint p) {
        return p.minus(construct.axes().origin()).dot(construct.axes().left());
    }

    private static double y(Construct construct, PatientPoint p) {
        return -p.minus(construct.axes().origin()).dot(construct.axes().cranial());
    }
}
