package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;

/** Panels that stand in the place of what they are about: failures, numbers of other settings, nothing there yet. */
final class Notice {

    private static final double MARK = 16;

    private Notice() {}

    /** What failed, why, and what still works; the details can be copied. */
    static Node error(String what, String details, String stillWorks, Optional<Button> act) {
        Button copy = new CopyButton(what + "\n" + details);
        HBox buttons = new HBox(8);
        act.ifPresent(button -> buttons.getChildren().add(button));
        buttons.getChildren().add(copy);
        VBox words = new VBox(4, label(what, "strong"), label(details, "soft"), label(stillWorks, "faint"), buttons);
        HBox box = new HBox(8, new StateMark(PartState.FAULT, MARK), words);
        HBox.setHgrow(words, Priority.ALWAYS);
        box.getStyleClass().addAll("notice", "ground-raised");
        return box;
    }

    /** A number that was measured with other inputs than there are now. */
    static Node stale(String why, Runnable measureAgain) {
        Button again = new Button("Measure again");
        again.setOnAction(event -> measureAgain.run());
        VBox words = new VBox(4, label(Words.sentence(why), "soft"), again);
        HBox box = new HBox(8, new StateMark(PartState.STALE, MARK), words);
        HBox.setHgrow(words, Priority.ALWAYS);
        box.setAlignment(Pos.TOP_LEFT);
        box.getStyleClass().addAll("notice", "ground-raised");
        return box;
    }

    private static Label label(String text, String tone) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.setMinHeight(Label.USE_PREF_SIZE);
        label.setVisible(!text.isEmpty());
        label.setManaged(!text.isEmpty());
        label.getStyleClass().addAll("small-text", tone);
        return label;
    }
}
