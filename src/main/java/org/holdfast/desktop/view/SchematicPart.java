package org.holdfast.desktop.view;

import java.util.Locale;
import java.util.OptionalDouble;
import javafx.geometry.Bounds;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** One part of the schematic, drawn by its kind and tinted by its state; it can be clicked and takes the focus. */
final class SchematicPart extends Group {

    /** Side of a screw's head, logical pixels. */
    static final double HEAD = 10;

    private static final double SHAFT = 6;
    private static final double ROD = 6;
    private static final double FACE = 8;
    private static final double THREAD = 5;
    private static final double PORE_STEP = 8;
    private static final double HALO = 3;
    private static final double BREAK = 9;

    private final Item item;
    private PartState state = PartState.NOT_MEASURED;

    SchematicPart(Item item, Runnable pick) {
        this.item = item;
        setAccessibleRole(AccessibleRole.BUTTON);
        setFocusTraversable(true);
        setOnMousePressed(event -> {
            pick.run();
            event.consume();
        });
        focusVisibleProperty().subscribe(focused -> {
            if (focused) {
                pick.run();
            }
        });
        setViewOrder(depth());
    }

    Item item() {
        return item;
    }

    /** Draws it anew; gives what it takes up. */
    Bounds show(SchematicState look, SchematicScale scale) {
        getChildren().clear();
        state = look.state();
        getStyleClass()
                .setAll("schematic-item", state.name().toLowerCase(Locale.ROOT).replace('_', '-'));
        setAccessibleText(item.part().label() + ", " + look.words());
        double x1 = scale.x(item.x1());
        double y1 = scale.y(item.y1());
        double x2 = scale.x(item.x2());
        double y2 = scale.y(item.y2());
        switch (item.part().kind()) {
            case SCREW -> screw(x1, x2, y1);
            case ROD -> rod(x1, y1, x2, y2);
            case INTERFACE -> face(x1, y1, x2, y2, look.share());
            default -> body(x1, y1, x2, y2);
        }
        return getLayoutBounds();
    }

    /** Heads lie over rods, rods over what is between them. */
    private double depth() {
        return switch (item.part().kind()) {
            case SCREW -> 0;
            case ROD -> 1;
            default -> 2;
        };
    }

    private void screw(double headX, double tipX, double y) {
        double left = Math.min(headX, tipX);
        double length = Math.abs(tipX - headX);
        add(new Rectangle(left, y - SHAFT / 2, length, SHAFT), "part-shape");
        for (double at = HEAD / 2 + THREAD / 2; at < length - 1; at += THREAD) {
            double x = headX + Math.signum(tipX - headX) * at;
            add(new Line(x - 1.5, y + SHAFT / 2, x + 1.5, y - SHAFT / 2), "part-thread");
        }
        if (state == PartState.FAULT) {
            halo(left, y - SHAFT / 2, length, SHAFT);
        }
        Rectangle head = new Rectangle(headX - HEAD / 2, y - HEAD / 2, HEAD, HEAD);
        round(head, 3);
        add(head, "part-shape");
    }

    /** A bar between its ends, however it lies; a fault leaves a gap with a stroke on either side. */
    private void rod(double x1, double y1, double x2, double y2) {
        double length = Math.max(1, Math.hypot(x2 - x1, y2 - y1));
        double ux = (x2 - x1) / length;
        double uy = (y2 - y1) / length;
        boolean isBroken = state == PartState.FAULT && length > 3 * BREAK;
        double gap = isBroken ? BREAK / 2 : 0;
        double middle = 0.42 * length;
        if (!isBroken) {
            add(bar(x1, y1, ux, uy, 0, length), "part-shape");
            return;
        }
        add(bar(x1, y1, ux, uy, 0, middle - gap), "part-shape");
        add(bar(x1, y1, ux, uy, middle + gap, length), "part-shape");
        for (double at : new double[] {middle - gap, middle + gap}) {
            double x = x1 + ux * at;
            double y = y1 + uy * at;
            double slant = 2.5;
            Line edge = new Line(
                    x - uy * (ROD + 1) - ux * slant,
                    y + ux * (ROD + 1) - uy * slant,
                    x + uy * (ROD + 1) + ux * slant,
                    y - ux * (ROD + 1) + uy * slant);
            add(edge, "part-break");
        }
    }

    private static Polygon bar(double x, double y, double ux, double uy, double from, double to) {
        double half = ROD / 2;
        return new Polygon(
                x + ux * from - uy * half,
                y + uy * from + ux * half,
                x + ux * from + uy * half,
                y + uy * from - ux * half,
                x + ux * to + uy * half,
                y + uy * to - ux * half,
                x + ux * to - uy * half,
                y + uy * to + ux * half);
    }

    /** A bar filled to its share, from the left or, where the face looks to the side, from the foot. */
    private void face(double x1, double y1, double x2, double y2, OptionalDouble share) {
        boolean isUpright = Math.abs(y2 - y1) > Math.abs(x2 - x1);
        double width = isUpright ? FACE : Math.abs(x2 - x1);
        double height = isUpright ? Math.abs(y2 - y1) : FACE;
        double left = (x1 + x2 - width) / 2;
        double top = (y1 + y2 - height) / 2;
        add(new Rectangle(left, top, width, height), "part-outline");
        if (share.isPresent()) {
            double part = share.getAsDouble();
            double inner = Math.max(0, width - 4) * (isUpright ? 1 : part);
            double high = Math.max(0, height - 4) * (isUpright ? part : 1);
            add(new Rectangle(left + 2, top + height - 2 - high, inner, high), "part-share");
        }
        if (state == PartState.FAULT) {
            halo(left, top, width, height);
        }
    }

    private void body(double x1, double y1, double x2, double y2) {
        double inset = FACE / 2 + 2;
        double top = y1 + inset;
        double height = Math.max(4, y2 - y1 - 2 * inset);
        Rectangle box = new Rectangle(x1, top, x2 - x1, height);
        round(box, 5);
        add(box, "part-shape");
        if (item.part().kind() != PartKind.BODY) {
            return;
        }
        int row = 0;
        for (double y = top + PORE_STEP * 0.75; y < top + height - 3; y += PORE_STEP) {
            double shift = row++ % 2 == 0 ? 0 : PORE_STEP / 2;
            for (double x = x1 + PORE_STEP * 0.75 + shift; x < x2 - 3; x += PORE_STEP) {
                add(new Circle(x, y, 1.2), "part-pore");
            }
        }
        if (state == PartState.FAULT) {
            halo(x1, top, x2 - x1, height);
        }
    }

    /** A dashed outline round a zone: loose, or broken at a place that the drawing does not tell. */
    private void halo(double x, double y, double width, double height) {
        Rectangle halo = new Rectangle(x - HALO, y - HALO, width + 2 * HALO, height + 2 * HALO);
        round(halo, 4);
        add(halo, "part-halo");
    }

    private static void round(Rectangle rectangle, double arc) {
        rectangle.setArcWidth(arc);
        rectangle.setArcHeight(arc);
    }

    private void add(Shape shape, String name) {
        shape.getStyleClass().add(name);
        getChildren().add(shape);
    }
}
