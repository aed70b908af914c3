package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.Node;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.viewmodel.ExamHeading;
import org.holdfast.desktop.viewmodel.NumberUnder;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** All that stands in one exam's column but its cells of the matrix: head, cuts, map, number. */
final class ExamColumnView {

    private final ExamHead head = new ExamHead();
    private final CutPane along;
    private final CutPane across;
    private final FilmStrip films;
    private final MapPane map;
    private final NumberPane number = new NumberPane();

    ExamColumnView(ReviewViewModel review, CutQueue queue, MarkTools tools, int exam) {
        along = new CutPane(review, queue, tools, CutRow.ALONG, exam, 2 * exam);
        across = new CutPane(review, queue, tools, CutRow.ACROSS, exam, 2 * exam + 1);
        films = new FilmStrip(review, queue, exam);
        map = new MapPane(review, exam);
        Runnable pick = () -> review.pick(review.stateProperty().get().partId(), exam);
        head.setOnMousePressed(event -> pick.run());
        number.setOnMousePressed(event -> pick.run());
    }

    List<Node> nodes() {
        return List.of(head, along, across, films, map, number);
    }

    CutPane cut(CutRow row) {
        return row == CutRow.ALONG ? along : across;
    }

    FilmStrip films() {
        return films;
    }

    List<CutPane> cuts() {
        return List.of(along, across);
    }

    void draw() {
        boolean isFilm = films.draw();
        along.setVisible(!isFilm);
        across.setVisible(!isFilm);
        along.draw();
        across.draw();
        map.draw();
    }

    void show(ExamHeading heading, NumberUnder under, boolean picked, boolean compact) {
        head.show(heading, picked, compact);
        number.show(under, picked, compact);
        map.draw();
    }

    void close() {
        films.close();
        along.close();
        across.close();
    }

    void layout(ReviewMetrics m, double x, double gap) {
        double width = m.columnWidth();
        head.resizeRelocate(x, 0, width, m.headHeight());
        along.resizeRelocate(x + gap, m.cutTop(0) + gap, width - 2 * gap, m.cutHeight() - 2 * gap);
        across.resizeRelocate(x + gap, m.cutTop(1) + gap, width - 2 * gap, m.cutHeight() - 2 * gap);
        films.resizeRelocate(x + gap, m.cutTop(0) + gap, width - 2 * gap, 2 * m.cutHeight() - 2 * gap);
        map.resizeRelocate(x + gap, m.mapTop() + gap, width - 2 * gap, m.mapHeight() - 2 * gap);
        number.resizeRelocate(x, m.numberTop(), width, m.numberHeight());
    }
}
