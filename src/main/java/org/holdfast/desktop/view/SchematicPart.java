package org.holdfast.desktop.view;

import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import javafx.geometry.Point2D;
import javafx.geometry.Rectangle2D;
import javafx.scene.AccessibleAction;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.SVGPath;
import javafx.scene.shape.Shape;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.SchematicState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.FrontPart;

/** One part of a schematic: drawn by its state, framed when picked, picked by mouse, Enter or a screen reader. */
final class SchematicPart extends Pane {

    private static final double ROD_HALF_PX = 3;
    private static final double SHANK_HALF_PX = 3.6;
    private static final double HEAD_PX = 10;
    private static final double LEAST_SHANK_PX = 18;
    private static final double BAR_HALF_PX = 4;
    private static final double FRAME_PX = 4;
    private static final double PORE_STEP_PX = 7;

    private final FrontPart front;
    private final Consumer<String> pick;
    private SchematicState state = SchematicState.UNKNOWN;

    SchematicPart(FrontPart front, Consumer<String> pick) {
        this.front = front;
        this.pick = pick;
        getStyleClass().add("schematic-part");
        setPickOnBounds(false);
        setFocusTraversable(true);
        setAccessibleRole(AccessibleRole.BUTTON);
        setOnMouseClicked(event -> {
            if (event.getButton() == MouseButton.PRIMARY) {
                pick.accept(id());
                event.consume();
            }
        });
        setOnKeyPressed(event -> {
            if (event.getCode() == KeyCode.ENTER) {
                pick.accept(id());
                event.consume();
            }
        });
    }

    String id() {
        return front.part().id();
    }

    FrontPart front() {
        return front;
    }

    @Override
    public void executeAccessibleAction(AccessibleAction action, Object... parameters) {
        if (action == AccessibleAction.FIRE) {
            pick.accept(id());
        } else {
            super.executeAccessibleAction(action, parameters);
        }
    }

    void show(SchematicState shown, boolean picked) {
        state = shown;
        for (PartState each : PartState.values()) {
            StyleClass.toggle(this, styleOf(each), each == shown.state());
        }
        StyleClass.toggle(this, "picked", picked);
        setViewOrder(picked ? -1 : 0);
        String share =
                shown.share().isPresent() ? ", " + Words.percent(shown.share().getAsDouble()) : "";
        setAccessibleText(front.part().label() + ", " + shown.state().words() + share);
    }

    private static String styleOf(PartState state) {
        return "state-" + state.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Draws the part anew into a picture of this fit. */
    void draw(FrontFit fit) {
        List<Point2D> points = placed(front, fit);
        getChildren().clear();
        if (front.outline() == FrontPart.Outline.AREA) {
            drawArea(points.get(0), points.get(1));
        } else if (front.part().kind() == PartKind.INTERFACE) {
            drawFace(points);
        } else if (front.part().kind() == PartKind.SCREW) {
            drawScrew(points.get(0), tip(points.get(0), points.get(1), fit));
        } else {
            drawRod(points);
        }
    }

    /** Where a part's points lie; a face's bar stands off its component, so that neither hides the other. */
    static List<Point2D> placed(FrontPart part, FrontFit fit) {
        List<Point2D> points = fit.at(part);
        if (part.owner().isEmpty()) {
            return points;
        }
        Point2D way = points.get(points.size() - 1).subtract(points.get(0));
        Point2D outwards = new Point2D(-way.getY(), way.getX());
        Point2D fromOwner = fit.at(part.middle()).subtract(fit.at(part.owner().get()));
        if (outwards.magnitude() < 1e-6 || fromOwner.magnitude() < 1e-6) {
            return points;
        }
        double side = outwards.dotProduct(fromOwner) < 0 ? -1 : 1;
        Point2D shift = outwards.normalize().multiply(side * (BAR_HALF_PX + 2));
        return points.stream().map(point -> point.add(shift)).toList();
    }

    private void drawArea(Point2D corner, Point2D opposite) {
        double x = corner.getX();
        double y = corner.getY();
        double width = Math.max(6, opposite.getX() - x);
        double height = Math.max(6, opposite.getY() - y);
        add("tint", rounded(x, y, width, height, 3));
        if (front.porous()) {
            add("pore", pores(new Rectangle2D(x, y, width, height)));
        }
        add("edge", rounded(x, y, width, height, 3));
        if (state.state() == PartState.FAULT) {
            crack(new Point2D(x + width * 0.62, y), new Point2D(x + width * 0.5, y + height));
        }
        add("frame", rounded(x - FRAME_PX, y - FRAME_PX, width + 2 * FRAME_PX, height + 2 * FRAME_PX, 5));
    }

    private void drawFace(List<Point2D> ends) {
        add("well", FrontShapes.band(ends, BAR_HALF_PX, 0));
        if (state.share().isPresent()) {
            double share = state.share().getAsDouble();
            if (share > 0) {
                add("tint", FrontShapes.band(FrontShapes.stretch(ends, 0, share), BAR_HALF_PX, 0));
            }
        } else {
            add("tint", FrontShapes.band(ends, BAR_HALF_PX, 0));
        }
        add("edge", FrontShapes.band(ends, BAR_HALF_PX, 0));
        add("frame", FrontShapes.band(ends, BAR_HALF_PX + FRAME_PX, FRAME_PX));
    }

    private void drawScrew(Point2D head, Point2D tip) {
        Point2D neck = head.add(tip.subtract(head).normalize().multiply(HEAD_PX / 2));
        List<Point2D> axis = List.of(head, tip);
        add("tint", FrontShapes.thread(neck, tip, SHANK_HALF_PX));
        add("edge", FrontShapes.thread(neck, tip, SHANK_HALF_PX));
        add("well", square(head));
        add("tint", square(head));
        add("edge", square(head));
        if (state.state() == PartState.FAULT) {
            add("halo", FrontShapes.band(List.of(neck, tip), SHANK_HALF_PX + 3.5, 2));
        }
        add("frame", FrontShapes.band(axis, HEAD_PX / 2 + FRAME_PX, HEAD_PX / 2 + FRAME_PX));
    }

    /** A screw that points at the viewer is drawn leaning to the middle, so that it can be seen and hit. */
    private static Point2D tip(Point2D head, Point2D tip, FrontFit fit) {
        double length = head.distance(tip);
        double wanted = LEAST_SHANK_PX + HEAD_PX / 2;
        if (length >= wanted) {
            return tip;
        }
        Point2D inwards = new Point2D(head.getX() > fit.x() ? -1 : 1, 0);
        return head.add((length < 3 ? inwards : tip.subtract(head).normalize()).multiply(wanted));
    }

    private void drawRod(List<Point2D> line) {
        if (state.state() == PartState.FAULT) {
            drawBroken(line);
        } else {
            add("tint", FrontShapes.band(line, ROD_HALF_PX, 2));
            add("edge", FrontShapes.band(line, ROD_HALF_PX, 2));
        }
        add("frame", FrontShapes.band(line, ROD_HALF_PX + FRAME_PX, FRAME_PX + 2));
    }

    /** In two pieces set apart, with a tick on each side of the gap. */
    private void drawBroken(List<Point2D> line) {
        double gap = 4 / Math.max(20, FrontShapes.lengthOf(line));
        double at = 0.33;
        List<Point2D> upper = FrontShapes.stretch(line, 0, at - gap);
        List<Point2D> lower = FrontShapes.stretch(line, at + gap, 1).stream()
                .map(point -> point.add(1.5, 0))
                .toList();
        for (List<Point2D> piece : List.of(upper, lower)) {
            add("tint", FrontShapes.band(piece, ROD_HALF_PX, 0));
            add("edge", FrontShapes.band(piece, ROD_HALF_PX, 0));
        }
        Point2D end = upper.get(upper.size() - 1);
        Point2D start = lower.get(0);
        add("tick", new Line(end.getX() - 9, end.getY() + 2, end.getX() - 4, end.getY() + 3.5));
        add("tick", new Line(start.getX() + 4, start.getY() - 3.5, start.getX() + 9, start.getY() - 2));
    }

    private void crack(Point2D from, Point2D to) {
        Point2D first = from.interpolate(to, 0.35).add(-5, 0);
        Point2D second = from.interpolate(to, 0.65).add(5, 0);
        add("crack", new Line(from.getX(), from.getY(), first.getX(), first.getY()));
        add("crack", new Line(first.getX(), first.getY(), second.getX(), second.getY()));
        add("crack", new Line(second.getX(), second.getY(), to.getX(), to.getY()));
    }

    private static Shape square(Point2D middle) {
        return rounded(middle.getX() - HEAD_PX / 2, middle.getY() - HEAD_PX / 2, HEAD_PX, HEAD_PX, 2);
    }

    private static Rectangle rounded(double x, double y, double width, double height, double corner) {
        Rectangle rectangle = new Rectangle(x, y, width, height);
        rectangle.setArcWidth(2 * corner);
        rectangle.setArcHeight(2 * corner);
        return rectangle;
    }

    private static Node pores(Rectangle2D area) {
        StringBuilder path = new StringBuilder();
        int rows = 0;
        for (double y = area.getMinY() + 6; y < area.getMaxY() - 4; y += PORE_STEP_PX) {
            double shift = rows++ % 2 == 0 ? 0 : PORE_STEP_PX / 2;
            for (double x = area.getMinX() + 6 + shift; x < area.getMaxX() - 4; x += PORE_STEP_PX) {
                path.append(
                        String.format(Locale.ROOT, "M%.1f %.1fa1.2 1.2 0 1 0 2.4 0a1.2 1.2 0 1 0 -2.4 0", x - 1.2, y));
            }
        }
        SVGPath pores = new SVGPath();
        pores.setContent(path.toString());
        return pores;
    }

    private void add(String style, Node shape) {
        shape.getStyleClass().add(style);
        getChildren().add(shape);
    }
}
