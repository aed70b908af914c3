package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.scene.shape.Circle;

/** A step of the work on the rail: a knot, in a ring where the person is, its name, and what there is to do. */
final class RailStep extends Button {

    private final Label name = new Label();
    private final Label open = new Label();
    private final Circle ring = new Circle(7);
    private final Circle knot = new Circle(4);

    RailStep(String step) {
        getStyleClass().add("rail-step");
        ring.getStyleClass().add("rail-ring");
        knot.getStyleClass().add("rail-knot");
        name.setText(step);
        name.getStyleClass().add("rail-name");
        open.getStyleClass().addAll("small-text", "faint");
        open.setWrapText(true);
        VBox words = new VBox(name, open);
        words.getStyleClass().add("rail-words");
        FlowPane content = new FlowPane(new StackPane(ring, knot), words);
        content.getStyleClass().add("rail-content");
        content.setAlignment(Pos.TOP_LEFT);
        setGraphic(content);
        setContentDisplay(ContentDisplay.GRAPHIC_ONLY);
        setMaxWidth(Double.MAX_VALUE);
        show("", false, false);
    }

    /**
     * Shows how it stands.
     *
     * @param more what there is to do
     * @param isHere whether the person is at this step
     * @param canGo whether they can go there
     */
    void show(String more, boolean isHere, boolean canGo) {
        open.setText(more);
        open.setManaged(!more.isEmpty());
        ring.setVisible(isHere);
        StyleClass.toggle(this, "is-here", isHere);
        setDisable(!isHere && !canGo);
        setAccessibleText(name.getText() + (more.isEmpty() ? "" : ", " + more) + (isHere ? ", shown now" : ""));
    }
}
