package org.holdfast.desktop.view;

import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;

/** The head of a page that shows an exam or series large: what it is, its controls, the way back. */
final class WholeImageHead extends HBox {

    private static final double SPACING = 12;

    /**
     * @param titleText what is shown
     * @param hint what is to be known of it
     * @param controls what may be chosen
     * @param backKey key that leads back
     * @param close leaves the page
     */
    WholeImageHead(String titleText, Label hint, List<? extends Node> controls, String backKey, Runnable close) {
        super(SPACING);
        Label title = new Label(titleText);
        title.getStyleClass().add("page-title");
        hint.getStyleClass().addAll("small-text", "soft");
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        Button back = new Button("Back");
        back.setGraphic(new KeyCap(backKey));
        back.setContentDisplay(ContentDisplay.RIGHT);
        back.setOnAction(event -> close.run());
        getChildren().addAll(title, hint, gap);
        getChildren().addAll(controls);
        getChildren().add(back);
        setAlignment(Pos.CENTER_LEFT);
        getStyleClass().add("whole-exam-head");
    }
}
