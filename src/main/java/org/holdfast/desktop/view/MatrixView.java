package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.OverrunStyle;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.desktop.state.ShortName;
import org.holdfast.desktop.viewmodel.PartCell;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/**
 * Parts × exams: a row a part with its name in the gutter, a column an exam in sight. Shows so many rows at once; with more
 * parts the rows scroll, and the chosen one is kept in sight.
 */
final class MatrixView extends Region {

    /** Share of the gutter that the schematic takes; names stand beside it. */
    private static final double SCHEMATIC = 0.42;

    private final ReviewViewModel review;
    private final List<HBox> names = new ArrayList<>();
    private final List<Label> labels = new ArrayList<>();
    private final List<List<MatrixCellView>> cells = new ArrayList<>();
    private final List<Region> rules = new ArrayList<>();
    private List<Integer> exams = List.of();
    private ReviewMetrics metrics;
    private int firstRow;

    MatrixView(ReviewViewModel review) {
        this.review = review;
        getStyleClass().add("matrix");
        for (ConstructPart part : review.parts()) {
            names.add(name(part));
        }
        Rectangle border = new Rectangle();
        border.widthProperty().bind(widthProperty());
        border.heightProperty().bind(heightProperty());
        setClip(border);
        setOnScroll(event -> {
            firstRow -= (int) Math.signum(event.getDeltaY());
            clampRows();
            requestLayout();
            event.consume();
        });
    }

    /** Where names begin, from the left of the gutter. */
    static double namesLeft(ReviewMetrics metrics) {
        return Math.floor(metrics.gutterWidth() * SCHEMATIC);
    }

    void setColumns(List<Integer> inSight) {
        exams = List.copyOf(inSight);
        cells.clear();
        rules.clear();
        getChildren().clear();
        for (ConstructPart part : review.parts()) {
            List<MatrixCellView> row = new ArrayList<>();
            for (int exam : exams) {
                row.add(new MatrixCellView(() -> review.pick(part.id(), exam)));
                Region rule = new Region();
                rule.getStyleClass().add("cell-rule");
                rule.setMouseTransparent(true);
                rules.add(rule);
            }
            cells.add(row);
        }
        getChildren().addAll(names);
        getChildren().addAll(rules);
        cells.forEach(row -> getChildren().addAll(row));
    }

    void setMetrics(ReviewMetrics next) {
        if (next.equals(metrics)) {
            return;
        }
        metrics = next;
        for (int n = 0; n < labels.size(); n++) {
            String label = review.parts().get(n).label();
            labels.get(n).setText(next.compact() ? ShortName.of(label) : label);
        }
        clampRows();
        requestLayout();
    }

    void show(ReviewState state) {
        for (int n = 0; n < review.parts().size(); n++) {
            ConstructPart part = review.parts().get(n);
            boolean inRow = part.id().equals(state.partId());
            StyleClass.toggle(names.get(n), "chosen", inRow);
            for (int column = 0; column < exams.size(); column++) {
                int exam = exams.get(column);
                PartCell cell = review.cell(part, exam);
                cells.get(n)
                        .get(column)
                        .show(cell, cell.aloud(part, review.exams().get(exam)), inRow, inRow && exam == state.exam());
            }
        }
        keepInSight(review.parts().indexOf(review.part()));
    }

    private void keepInSight(int row) {
        if (metrics == null) {
            return;
        }
        if (row < firstRow) {
            firstRow = row;
        } else if (row >= firstRow + metrics.rows()) {
            firstRow = row - metrics.rows() + 1;
        }
        clampRows();
        requestLayout();
    }

    private void clampRows() {
        int most = metrics == null ? 0 : review.parts().size() - metrics.rows();
        firstRow = Math.max(0, Math.min(most, firstRow));
    }

    @Override
    protected void layoutChildren() {
        if (metrics == null) {
            return;
        }
        double left = namesLeft(metrics);
        for (int n = 0; n < names.size(); n++) {
            double top = (n - firstRow) * metrics.rowHeight();
            names.get(n).resizeRelocate(left, top, metrics.gutterWidth() - left, metrics.rowHeight());
            for (int column = 0; column < exams.size(); column++) {
                double x = metrics.gutterWidth() + column * metrics.columnWidth();
                cells.get(n).get(column).resizeRelocate(x + 4, top, metrics.columnWidth() - 8, metrics.rowHeight());
                rules.get(n * exams.size() + column)
                        .resizeRelocate(x + 8, top + metrics.rowHeight() - 1, metrics.columnWidth() - 16, 1);
            }
        }
    }

    private HBox name(ConstructPart part) {
        Label number = new Label(Integer.toString(part.number()));
        number.getStyleClass().addAll("cell-text", "part-number");
        Label label = new Label(part.label());
        label.getStyleClass().addAll("cell-text", "part-name");
        label.setTextOverrun(OverrunStyle.CENTER_ELLIPSIS);
        labels.add(label);
        HBox box = new HBox(number, label);
        box.getStyleClass().add("part-row");
        box.setAlignment(Pos.CENTER_LEFT);
        box.setOnMousePressed(
                event -> review.pick(part.id(), review.stateProperty().get().exam()));
        box.setAccessibleRole(AccessibleRole.BUTTON);
        box.setAccessibleText("part " + part.number() + ", " + part.label());
        Tooltip.install(box, new Tooltip(part.label()));
        return box;
    }
}
