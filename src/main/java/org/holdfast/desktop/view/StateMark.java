package org.holdfast.desktop.view;

import javafx.scene.Node;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.CubicCurveTo;
import javafx.scene.shape.Line;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import javafx.scene.transform.Scale;
import org.holdfast.desktop.state.PartState;

/** The mark of a state, drawn in a box of 14 px: a shape of its own for each, the colour comes second. */
final class StateMark extends Pane {

    private static final double BOX = 14;

    StateMark(PartState state, double sizePx) {
        setMouseTransparent(true);
        setMinSize(sizePx, sizePx);
        setPrefSize(sizePx, sizePx);
        setMaxSize(sizePx, sizePx);
        Pane box = new Pane(shapes(state));
        box.getTransforms().add(new Scale(sizePx / BOX, sizePx / BOX, 0, 0));
        box.setManaged(false);
        getChildren().add(box);
    }

    private static Node[] shapes(PartState state) {
        return switch (state) {
            case NO_FINDING -> new Node[] {fill(new Circle(7, 7, 2.8), "mark-ok")};
            case CHANGED -> new Node[] {fill(new Polygon(7, 2, 12.2, 11.5, 1.8, 11.5), "mark-change")};
            case FAULT ->
                new Node[] {
                    fill(new Polygon(7, 1.2, 12.8, 7, 7, 12.8, 1.2, 7), "mark-fault"),
                    stroke(new Polyline(7.6, 2.4, 6.2, 5.6, 8, 7.6, 6.5, 11.6), "mark-crack", 1.2)
                };
            case UNCONFIRMED -> ringedQuestion();
            case NOT_ASSESSABLE -> hatchedSquare();
            case NOT_MEASURED -> new Node[] {stroke(new Circle(7, 7, 3.6), "mark-na", 1.2)};
            case STALE ->
                new Node[] {stroke(new Polyline(3.2, 2, 10.8, 2, 3.2, 12, 10.8, 12, 3.2, 2), "mark-stale", 1.3)};
        };
    }

    /** The question mark is drawn, so that it is the same with every font. */
    private static Node[] ringedQuestion() {
        Circle ring = new Circle(7, 7, 5.4);
        ring.getStrokeDashArray().setAll(2.2, 1.6);
        Path hook = new Path(
                new MoveTo(5.2, 5.6),
                new CubicCurveTo(5.2, 3.2, 8.9, 3.2, 8.9, 5.5),
                new CubicCurveTo(8.9, 7, 7, 6.9, 7, 8.6));
        Circle dot = new Circle(7, 10.3, 0.75);
        return new Node[] {stroke(ring, "mark-doubt", 1.2), stroke(hook, "mark-doubt", 1.2), fill(dot, "mark-doubt")};
    }

    private static Node[] hatchedSquare() {
        Rectangle square = new Rectangle(2.5, 2.5, 9, 9);
        return new Node[] {
            stroke(square, "mark-na", 1),
            stroke(new Line(2.5, 7, 7, 2.5), "mark-na", 1),
            stroke(new Line(2.5, 11.5, 11.5, 2.5), "mark-na", 1),
            stroke(new Line(7, 11.5, 11.5, 7), "mark-na", 1)
        };
    }

    private static Node fill(Shape shape, String name) {
        shape.getStyleClass().addAll("mark-fill", name);
        return shape;
    }

    private static Node stroke(Shape shape, String name, double width) {
        shape.getStyleClass().addAll("mark-stroke", name);
        shape.setStrokeWidth(width);
        return shape;
    }
}
