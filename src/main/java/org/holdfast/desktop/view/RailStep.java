package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.scene.shape.Circle;

/** The step of the work that is open: a knot in a ring, its name, and what there is to do. */
final class RailStep extends FlowPane {

    private final Label name = new Label();
    private final Label open = new Label();

    RailStep() {
        getStyleClass().add("rail-step");
        Circle ring = new Circle(7);
        ring.getStyleClass().add("rail-ring");
        Circle knot = new Circle(4);
        knot.getStyleClass().add("rail-knot");
        StackPane mark = new StackPane(ring, knot);
        name.getStyleClass().add("rail-name");
        open.getStyleClass().addAll("small-text", "faint");
        open.setWrapText(true);
        VBox words = new VBox(name, open);
        words.getStyleClass().add("rail-words");
        setAlignment(Pos.TOP_LEFT);
        getChildren().addAll(mark, words);
        setVisible(false);
    }

    void show(String step, String more) {
        setVisible(!step.isEmpty());
        name.setText(step);
        open.setText(more);
        setAccessibleText(step + ", " + more);
    }
}
