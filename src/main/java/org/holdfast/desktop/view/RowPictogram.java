package org.holdfast.desktop.view;

import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;

/** A row of the strip on a small body: a stroke along it, dashes across it, or the frame of its face. */
final class RowPictogram extends Pane {

    private static final double SIZE = 18;

    /** Which row. */
    enum Row {
        ALONG,
        ACROSS,
        FACE_ON
    }

    RowPictogram(Row row) {
        setMinSize(SIZE, SIZE);
        setMaxSize(SIZE, SIZE);
        Rectangle body = new Rectangle(5.5, 2.5, 7, 13);
        body.getStyleClass().add("pictogram-body");
        Line cut = row == Row.ALONG ? new Line(9, 0, 9, 18) : new Line(0, 9, 18, 9);
        cut.getStyleClass().add("pictogram-cut");
        if (row == Row.ACROSS) {
            cut.getStrokeDashArray().setAll(3.0, 2.0);
        }
        if (row == Row.FACE_ON) {
            body.setX(2.5);
            body.setWidth(13);
            body.setY(5.5);
            body.setHeight(7);
            Rectangle face = new Rectangle(0.5, 3.5, 17, 11);
            face.getStyleClass().add("pictogram-cut");
            getChildren().addAll(body, face);
        } else {
            getChildren().addAll(body, cut);
        }
        getChildren().forEach(node -> node.setManaged(false));
    }
}
