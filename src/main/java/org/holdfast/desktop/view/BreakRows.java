package org.holdfast.desktop.view;

import static org.holdfast.desktop.view.CoursePen.snapped;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.BiConsumer;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.BreakSpan;
import org.holdfast.desktop.viewmodel.MonthAxis;

/** Breaks under the lanes: a bar from the last exam without one, a ring, to the first with one, a diamond, and words. */
final class BreakRows {

    private static final double RING = 3.2;
    private static final double MARK = 12;

    private final CoursePen pen;
    private final CourseLines course;
    private final MonthAxis axis;
    private final int rows;
    private final double width;

    /** @param width where the chart ends, logical pixels */
    BreakRows(CoursePen pen, CourseLines course, MonthAxis axis, int rows, double width) {
        this.pen = pen;
        this.course = course;
        this.axis = axis;
        this.rows = rows;
        this.width = width;
    }

    /** Draws as many as there are rows, the chosen part's first; the last row tells how many more there are. */
    void draw(double top, double height, BiConsumer<Integer, String> onPick) {
        if (rows == 0) {
            return;
        }
        List<BreakSpan> spans = new ArrayList<>(course.breaks());
        spans.sort(Comparator.comparing(BreakSpan::isPicked).reversed());
        pen.say(4, top + 0.5 * height + 4, "Breaks", "lane");
        for (int n = 0; n < rows; n++) {
            double middle = snapped(top + (n + 0.5) * height);
            int hidden = n == rows - 1 ? spans.size() - rows : 0;
            row(spans.get(n), middle, hidden, onPick);
        }
    }

    private void row(BreakSpan span, double middle, int hidden, BiConsumer<Integer, String> onPick) {
        double to = x(span.firstBroken());
        String tone = span.isConfirmed() ? "course-break" : "course-break-doubt";
        if (span.lastWhole().isPresent()) {
            double from = x(span.lastWhole().getAsInt());
            pen.add(new Line(from + RING, middle, to, middle), tone);
            pen.add(new Circle(from, middle, RING), tone);
        }
        pen.mark(new StateMark(span.isConfirmed() ? PartState.FAULT : PartState.UNCONFIRMED, MARK), to, middle, MARK);
        String more = hidden > 0 ? "; " + hidden + " more" : "";
        String words = span.words() + more;
        String style = span.isPicked() ? "end-picked" : "end";
        double room = width - to - MARK - 4;
        double before = span.lastWhole().isPresent() ? x(span.lastWhole().getAsInt()) - RING - 8 : to - MARK;
        // Words stand where there is more room: after the diamond, or before the bar.
        if (room >= before - axis.left()) {
            pen.cut(to + MARK, middle + 4, words, style, room);
        } else {
            pen.rightAligned(before, middle + 4, words, style);
        }
        int exam = course.stations().get(span.firstBroken()).exam();
        Rectangle hit = pen.add(new Rectangle(to - MARK, middle - 7, 2 * MARK, 14), "hit");
        hit.setOnMousePressed(event -> onPick.accept(exam, span.partId()));
    }

    private double x(int station) {
        return axis.x(course.stations().get(station).months());
    }
}
