package org.holdfast.desktop.view;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Act.Area;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.MouseAct;
import org.holdfast.desktop.state.ShownPath;

/** All keys, by where they count, and what the mouse does. */
public final class KeyPage {

    private KeyPage() {}

    /**
     * The page.
     *
     * @param bindings the person's keys and mouse
     * @param place where a document with keys of one's own would lie
     * @param close leaves the page
     */
    public static Node of(Bindings bindings, Path place, Runnable close) {
        FlowPane columns = new FlowPane();
        columns.getStyleClass().add("key-columns");
        for (Area area : Area.values()) {
            GridPane table = table();
            int row = 0;
            for (Act act : Act.in(area)) {
                table.addRow(row++, new KeyCap(bindings.keyWords(act)), words(act.words()));
            }
            columns.getChildren().add(section(area.words(), table));
        }
        GridPane mouse = table();
        for (MouseAct act : MouseAct.values()) {
            mouse.addRow(act.ordinal(), new KeyCap(bindings.words(act)), words(act.words()));
        }
        mouse.addRow(
                MouseAct.values().length, new KeyCap("click"), words("choose the exam; in the matrix part and exam"));
        columns.getChildren().add(section("Mouse on a cut", mouse));
        Label own = words("Keys and gestures of your own: " + ShownPath.of(place)
                + ", such as {\"keys\": {\"LINK\": [\"Ctrl+L\"]}, \"mouse\": {\"PAN\": \"Ctrl+drag\"}}. Names of acts: "
                + names());
        own.getStyleClass().add("own-keys");
        own.setMinHeight(Label.USE_PREF_SIZE);
        return new CoverPage("All keys", new VBox(24, columns, own), close);
    }

    private static String names() {
        return Stream.concat(Arrays.stream(Act.values()), Arrays.stream(MouseAct.values()))
                .map(Enum::name)
                .collect(Collectors.joining(", "));
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
