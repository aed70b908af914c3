package org.holdfast.desktop.view;

import javafx.scene.Node;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Polyline;
import javafx.scene.transform.Scale;
import org.holdfast.app.IntakeNote;
import org.holdfast.desktop.state.PartState;

/** The mark before a note on what was found: a shape of its own for each meaning. */
final class NoteMark {

    private static final double BOX = 14;

    private NoteMark() {}

    static Node of(IntakeNote.Mark mark, double sizePx) {
        return switch (mark) {
            case GOOD -> tick(sizePx);
            case KNOWN -> new StateMark(PartState.NO_FINDING, sizePx);
            case CAUTION -> new WarningMark(sizePx);
            case LIMIT -> new StateMark(PartState.CHANGED, sizePx);
            case FAULT -> new StateMark(PartState.FAULT, sizePx);
            case QUESTION -> new StateMark(PartState.UNCONFIRMED, sizePx);
        };
    }

    private static Node tick(double sizePx) {
        Polyline line = new Polyline(2, 7.5, 5.6, 11, 12, 3.4);
        line.getStyleClass().addAll("mark-stroke", "mark-tick");
        line.setStrokeWidth(1.6);
        Pane box = new Pane(line);
        box.getTransforms().add(new Scale(sizePx / BOX, sizePx / BOX, 0, 0));
        box.setManaged(false);
        Pane mark = new Pane(box);
        mark.setMouseTransparent(true);
        mark.setMinSize(sizePx, sizePx);
        mark.setPrefSize(sizePx, sizePx);
        mark.setMaxSize(sizePx, sizePx);
        return mark;
    }
}
