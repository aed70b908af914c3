package org.holdfast.desktop.view;

import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** One part of the schematic, drawn by its kind and tinted by its state. */
final class SchematicPart extends Group {

    private static final double HEAD = 9;
    private static final double THREAD = 5;
    private static final double PORE_STEP = 8;
    private static final double FRAME = 4;

    private final SchematicState state;

    SchematicPart(Item item, SchematicState state, SchematicScale scale, boolean picked) {
        this.state = state;
        setAccessibleRole(AccessibleRole.BUTTON);
        setAccessibleText(item.part().label() + ", " + state.words());
        double x1 = scale.x(item.x1());
        double y1 = scale.y(item.y1());
        double x2 = scale.x(item.x2());
        double y2 = scale.y(item.y2());
        switch (item.part().kind()) {
            case SCREW -> screw(x1, x2, y1);
            case ROD -> rod(x1, y1, x2, y2);
            case INTERFACE -> face(x1, y1, x2, y2);
            default -> body(x1, y1, x2, y2);
        }
        if (picked) {
            frame(item.part().kind());
        }
    }

    private void screw(double headX, double tipX, double y) {
        double left = Math.min(headX, tipX);
        double length = Math.abs(tipX - headX);
        Rectangle shaft = new Rectangle(left, y - 2.5, length, 5);
        add(shaft);
        for (double at = THREAD; at < length; at += THREAD) {
            Line turn = new Line(left + at - 1.5, y + 2.5, left + at + 1.5, y - 2.5);
            turn.getStyleClass().add("schematic-thread");
            getChildren().add(turn);
        }
        Rectangle head = new Rectangle(headX - HEAD / 2, y - HEAD / 2, HEAD, HEAD);
        head.setArcWidth(3);
        head.setArcHeight(3);
        add(head);
    }

    private void rod(double x1, double y1, double x2, double y2) {
        double x = (x1 + x2) / 2;
        add(new Rectangle(x - 2.5, y1, 5, Math.max(1, y2 - y1)));
    }

    private void face(double x1, double y1, double x2, double y2) {
        double y = (y1 + y2) / 2;
        double width = x2 - x1;
        Rectangle outline = new Rectangle(x1, y - 3, width, 6);
        outline.getStyleClass().addAll("schematic-part", "empty");
        hatched(outline);
        getChildren().add(outline);
        if (state.share().isPresent()) {
            Rectangle filled = new Rectangle(x1, y - 3, width * state.share().getAsDouble(), 6);
            filled.getStyleClass().addAll("schematic-part", tint());
            getChildren().add(filled);
        }
    }

    private void body(double x1, double y1, double x2, double y2) {
        Rectangle box = new Rectangle(x1, y1 + 4, x2 - x1, Math.max(4, y2 - y1 - 8));
        box.setArcWidth(5);
        box.setArcHeight(5);
        add(box);
        int row = 0;
        for (double y = y1 + 4 + PORE_STEP; y < y2 - 6; y += PORE_STEP) {
            double shift = row++ % 2 == 0 ? 0 : PORE_STEP / 2;
            for (double x = x1 + PORE_STEP - shift / 2; x < x2 - 4; x += PORE_STEP) {
                Circle pore = new Circle(x + shift / 2, y, 1.1);
                pore.getStyleClass().add("schematic-pore");
                getChildren().add(pore);
            }
        }
    }

    private void add(Shape shape) {
        shape.getStyleClass().addAll("schematic-part", tint());
        hatched(shape);
        getChildren().add(shape);
    }

    private void hatched(Shape shape) {
        if (state.state() == PartState.UNCONFIRMED) {
            shape.getStrokeDashArray().setAll(3.0, 2.0);
        } else if (state.state() == PartState.NOT_ASSESSABLE) {
            shape.getStrokeDashArray().setAll(1.5, 1.5);
        }
    }

    private String tint() {
        return switch (state.state()) {
            case NO_FINDING -> "tint-ok";
            case CHANGED -> "tint-change";
            case FAULT -> "tint-fault";
            case UNCONFIRMED -> "tint-doubt";
            case NOT_ASSESSABLE -> "tint-na";
            case NOT_MEASURED -> "tint-none";
            case STALE -> "tint-stale";
        };
    }

    private void frame(PartKind kind) {
        javafx.geometry.Bounds bounds = getLayoutBounds();
        double around = kind == PartKind.BODY ? 2 : FRAME;
        Rectangle frame = new Rectangle(
                bounds.getMinX() - around,
                bounds.getMinY() - around,
                bounds.getWidth() + 2 * around,
                bounds.getHeight() + 2 * around);
        frame.setArcWidth(6);
        frame.setArcHeight(6);
        frame.getStyleClass().add("schematic-frame");
        frame.setMouseTransparent(true);
        getChildren().add(frame);
    }
}
