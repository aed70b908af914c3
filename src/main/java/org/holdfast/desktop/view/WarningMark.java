package org.holdfast.desktop.view;

import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polygon;
import javafx.scene.transform.Scale;

/** An outlined triangle with an exclamation mark: two exams may not be compared, or only with care. */
final class WarningMark extends Pane {

    private static final double BOX = 14;

    WarningMark(double sizePx) {
        setMouseTransparent(true);
        setMinSize(sizePx, sizePx);
        setPrefSize(sizePx, sizePx);
        setMaxSize(sizePx, sizePx);
        Polygon triangle = new Polygon(7, 1.6, 13, 12.4, 1, 12.4);
        triangle.getStyleClass().addAll("mark-stroke", "mark-change");
        triangle.setStrokeWidth(1.3);
        Line stem = new Line(7, 5.4, 7, 8.6);
        stem.getStyleClass().addAll("mark-stroke", "mark-change");
        stem.setStrokeWidth(1.4);
        Circle dot = new Circle(7, 10.6, 0.8);
        dot.getStyleClass().addAll("mark-fill", "mark-change");
        Pane box = new Pane(triangle, stem, dot);
        box.getTransforms().add(new Scale(sizePx / BOX, sizePx / BOX, 0, 0));
        box.setManaged(false);
        getChildren().add(box);
        setAccessibleText("warning");
    }
}
