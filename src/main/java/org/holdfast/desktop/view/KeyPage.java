package org.holdfast.desktop.view;

import java.util.List;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Act.Area;

/** All keys, by where they count, and what the mouse does. */
public final class KeyPage {

    /** What the mouse does on a cut. */
    private static final List<List<String>> MOUSE = List.of(
            List.of("wheel", "step along the cut's normal; with Shift five"),
            List.of("Ctrl wheel", "magnify at the pointer"),
            List.of("drag", "move the crossing of the cuts"),
            List.of("Shift drag", "move the picture"),
            List.of("Alt drag", "window: sideways width, up and down centre"),
            List.of("click", "choose the exam; in the matrix part and exam"));

    private KeyPage() {}

    /** The page. */
    public static Node of(Runnable close) {
        FlowPane columns = new FlowPane();
        columns.getStyleClass().add("key-columns");
        for (Area area : Area.values()) {
            GridPane table = table();
            int row = 0;
            for (Act act : Act.in(area)) {
                table.addRow(row++, new KeyCap(act.keyWords()), words(act.words()));
            }
            columns.getChildren().add(section(area.words(), table));
        }
        GridPane mouse = table();
        for (int row = 0; row < MOUSE.size(); row++) {
            mouse.addRow(
                    row, new KeyCap(MOUSE.get(row).get(0)), words(MOUSE.get(row).get(1)));
        }
        columns.getChildren().add(section("Mouse on a cut", mouse));
        return new CoverPage("All keys", columns, close);
    }

    private static VBox section(String title, GridPane table) {
        Label name = new Label(title);
        name.getStyleClass().add("section-title");
        VBox section = new VBox(8, name, table);
        section.getStyleClass().add("key-section");
        return section;
    }

    private static GridPane table() {
        GridPane table = new GridPane();
        table.getStyleClass().add("key-table");
        ColumnConstraints keys = new ColumnConstraints(96);
        keys.setHalignment(HPos.RIGHT);
        ColumnConstraints what = new ColumnConstraints(300);
        table.getColumnConstraints().addAll(keys, what);
        return table;
    }

    private static Label words(String text) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.getStyleClass().addAll("body-text", "soft");
        return label;
    }
}
