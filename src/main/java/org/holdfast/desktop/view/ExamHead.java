package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.viewmodel.ExamHeading;

/** The head of an exam's column: offset from surgery, how it was made, and a warning where it may not be compared. */
final class ExamHead extends VBox {

    private final Label title = new Label();
    private final Label aside = new Label();
    private final Label facts = new Label();
    private final WarningMark warning = new WarningMark(12);
    private final Tooltip tooltip = new Tooltip();

    ExamHead() {
        getStyleClass().add("exam-head");
        title.getStyleClass().add("column-header");
        facts.getStyleClass().addAll("small-text", "faint");
        aside.getStyleClass().addAll("small-text", "soft");
        title.setMinWidth(USE_PREF_SIZE);
        HBox first = new HBox(title, warning, aside);
        first.setAlignment(Pos.BASELINE_LEFT);
        first.getStyleClass().add("exam-head-line");
        getChildren().addAll(first, facts);
        setAccessibleRole(AccessibleRole.TEXT);
        tooltip.setWrapText(true);
        tooltip.setMaxWidth(420);
        Tooltip.install(this, tooltip);
    }

    void show(ExamHeading heading, boolean picked, boolean compact) {
        title.setText(heading.title());
        warning.setVisible(heading.warning().isPresent());
        warning.setManaged(heading.warning().isPresent());
        aside.setText(heading.aside());
        aside.setVisible(!heading.aside().isEmpty());
        aside.setManaged(!heading.aside().isEmpty());
        facts.setText(compact ? heading.compactFacts() : heading.facts());
        StyleClass.toggle(this, "picked", picked);
        String said =
                heading.title() + (heading.aside().isEmpty() ? "" : ", " + heading.aside()) + ", " + heading.facts();
        setAccessibleText(said);
        tooltip.setText(
                heading.cautions().isEmpty()
                        ? heading.facts()
                        : heading.facts() + "\n\n" + String.join("\n", heading.cautions()));
    }
}
