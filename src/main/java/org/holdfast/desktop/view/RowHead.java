package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;

/** The head of a row of the strip: what is seen in the row, and what acts on it. */
final class RowHead extends VBox {

    private final Label name = new Label();
    private final Label direction = new Label();

    /**
     * @param pictogram the row on a small body; empty for none
     * @param title what the row is called
     * @param more what stands under the direction
     */
    RowHead(Optional<Node> pictogram, String title, Node... more) {
        getStyleClass().add("row-head");
        name.setText(title);
        name.getStyleClass().add("row-title");
        HBox first = new HBox(8, name);
        pictogram.ifPresent(drawn -> first.getChildren().add(0, drawn));
        first.setAlignment(Pos.CENTER_LEFT);
        direction.getStyleClass().addAll("small-text", "soft");
        direction.setWrapText(true);
        direction.setMinHeight(Region.USE_PREF_SIZE);
        getChildren().addAll(first, direction);
        getChildren().addAll(more);
    }

    void setTitle(String title) {
        name.setText(title);
    }

    void setDirection(String words) {
        direction.setText(words);
        direction.setVisible(!words.isEmpty());
        direction.setManaged(!words.isEmpty());
    }
}
