package org.holdfast.desktop.view;

import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.PartCell;

/** One cell of the matrix: mark and words. A click chooses part and exam at once. */
final class MatrixCellView extends HBox {

    private static final double MARK = 14;

    private final Label words = new Label();
    private Tooltip tooltip;
    private PartState marked;

    MatrixCellView(Runnable pick) {
        getStyleClass().add("matrix-cell");
        words.getStyleClass().add("cell-text");
        setAlignment(Pos.CENTER_LEFT);
        setAccessibleRole(AccessibleRole.BUTTON);
        setOnMousePressed(event -> pick.run());
        setFocusTraversable(true);
        focusVisibleProperty().subscribe(focused -> {
            if (focused) {
                pick.run();
            }
        });
        getChildren().add(words);
    }

    void show(PartCell cell, String aloud, boolean inRow, boolean isChosen) {
        if (cell.state() != marked) {
            marked = cell.state();
            getChildren().setAll(new StateMark(cell.state(), MARK), words);
        }
        words.setText(cell.words());
        words.getStyleClass().setAll("label", "cell-text", MarkColour.of(cell.state()));
        StyleClass.toggle(words, "stale", cell.state() == PartState.STALE);
        StyleClass.toggle(this, "in-row", inRow);
        StyleClass.toggle(this, "chosen", isChosen);
        setAccessibleText(aloud);
        explain(cell.cause());
    }

    private void explain(String cause) {
        if (tooltip == null && !cause.isEmpty()) {
            tooltip = new Tooltip();
            tooltip.setWrapText(true);
            tooltip.setMaxWidth(420);
            Tooltip.install(this, tooltip);
        }
        if (tooltip != null && cause.isEmpty()) {
            Tooltip.uninstall(this, tooltip);
            tooltip = null;
        }
        if (tooltip != null) {
            tooltip.setText(cause);
        }
    }
}
