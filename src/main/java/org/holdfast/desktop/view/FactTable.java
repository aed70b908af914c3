package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;

/** Lines of a name, a value at the right, and a mark behind it. */
final class FactTable extends GridPane {

    FactTable() {
        getStyleClass().add("line-table");
        ColumnConstraints names = new ColumnConstraints();
        names.setMinWidth(90);
        ColumnConstraints values = new ColumnConstraints();
        values.setHgrow(Priority.ALWAYS);
        values.setHalignment(HPos.RIGHT);
        ColumnConstraints marks = new ColumnConstraints(18);
        marks.setHalignment(HPos.RIGHT);
        getColumnConstraints().addAll(names, values, marks);
    }

    void clear() {
        getChildren().clear();
    }

    void add(String name, String value, Optional<Node> mark, String more) {
        int row = getRowCount();
        Label what = label(name, "soft");
        Label figure = label(value, "strong");
        figure.setStyle("-fx-text-alignment: right; -fx-alignment: center-right;");
        if (!more.isEmpty()) {
            Tooltip words = new Tooltip(more);
            words.setWrapText(true);
            words.setMaxWidth(420);
            what.setTooltip(words);
            figure.setTooltip(words);
            figure.setAccessibleHelp(more);
        }
        add(what, 0, row);
        add(figure, 1, row);
        add(new StackPane(mark.orElseGet(Region::new)), 2, row);
    }

    private static Label label(String text, String tone) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.setMinHeight(USE_PREF_SIZE);
        label.getStyleClass().addAll("cell-text", tone);
        return label;
    }
}
