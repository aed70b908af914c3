package org.holdfast.desktop.view;

import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.NumberUnder;

/** The number under an exam's pictures with bounds and detection limit; never one without the others. */
final class NumberPane extends VBox {

    private static final double MARK = 14;
    /** A longer number is a phrase and set smaller. */
    private static final int LONGEST_NUMBER = 8;

    private final Label value = new Label();
    private final Label bounds = new Label();
    private final Label limit = new Label();
    private final Label second = new Label();
    private final BoundsBar bar = new BoundsBar();
    private final BorderPane line = new BorderPane();
    private final HBox number = new HBox(4);
    private final Tooltip tooltip = new Tooltip();
    private PartState marked;

    NumberPane() {
        getStyleClass().add("number-pane");
        value.getStyleClass().add("number");
        bounds.getStyleClass().addAll("small-text", "soft");
        limit.getStyleClass().addAll("small-text", "faint");
        second.setWrapText(true);
        value.setMinWidth(0);
        second.getStyleClass().addAll("small-text", "soft");
        number.setAlignment(Pos.CENTER_LEFT);
        line.setLeft(number);
        BorderPane.setAlignment(bounds, Pos.CENTER_RIGHT);
        BorderPane.setMargin(bounds, new Insets(0, 0, 0, 4));
        line.setRight(bounds);
        bounds.setMinWidth(USE_PREF_SIZE);
        getChildren().addAll(line, bar, limit, second);
        setAccessibleRole(AccessibleRole.TEXT);
        tooltip.setWrapText(true);
        tooltip.setMaxWidth(420);
        Tooltip.install(this, tooltip);
    }

    void show(NumberUnder under, boolean picked, boolean compact) {
        value.setText(under.value());
        StyleClass.toggle(value, "worded", !under.isNumber());
        StyleClass.toggle(value, "phrase", under.isNumber() && under.value().length() > LONGEST_NUMBER);
        StyleClass.toggle(value, "stale", under.state() == PartState.STALE);
        StyleClass.toggle(this, "picked", picked);
        mark(under.state());
        bounds.setText(under.bounds().isEmpty() || compact ? under.bounds() : "bounds " + under.bounds());
        bar.show(under.bar());
        limit.setText(compact ? under.compactLimit() : under.limit());
        second.setText(compact ? under.compactSecond() : under.second());
        String said = under.aloud();
        setAccessibleText(said);
        tooltip.setText(said);
    }

    private void mark(PartState state) {
        if (state == marked) {
            return;
        }
        marked = state;
        number.getChildren().setAll(value);
        if (state != PartState.NO_FINDING && state != PartState.NOT_MEASURED) {
            number.getChildren().add(0, new StateMark(state, MARK));
        }
    }
}
