package org.holdfast.desktop.view;

import static org.holdfast.desktop.view.CoursePen.snapped;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.JoinPieces;
import org.holdfast.desktop.viewmodel.JoinPieces.Piece;
import org.holdfast.desktop.viewmodel.LabelRows;
import org.holdfast.desktop.viewmodel.MonthAxis;

/** Draws one measured quantity of the course: its scale, a line a part, and what is not stated or not comparable. */
final class CourseLaneDrawing {

    private static final double LABEL_ROW = 14;
    private static final double HIT = 11;
    private static final double MARK = 12;
    private static final double STRUCK = 7;
    /** A line that passes over an exam leaves so much free on both sides of it. */
    private static final double PASSING_GAP = 8;

    private static final List<List<Double>> DASHES =
            List.of(List.of(4.0, 3.0), List.of(1.5, 2.5), List.of(7.0, 2.0, 1.5, 2.0));
    private static final List<Double> PASSING = List.of(2.0, 4.0);
    /** The chosen part's line: no dash, a disc. */
    private static final int PICKED = -1;

    private final CoursePen pen;
    private final List<Station> stations;
    private final Lane lane;
    private final MonthAxis axis;
    private final double top;
    private final double bottom;

    CourseLaneDrawing(CoursePen pen, List<Station> stations, Lane lane, MonthAxis axis, double top, double bottom) {
        this.pen = pen;
        this.stations = stations;
        this.lane = lane;
        this.axis = axis;
        this.top = top;
        this.bottom = bottom;
    }

    /** Its name and values, and a rule at each of these shares of its height. */
    void scale(double nameLeft, double[] shares) {
        pen.say(nameLeft, middle() + 4, lane.name(), "lane");
        for (double share : shares) {
            double y = snapped(bottom - share * (bottom - top));
            pen.add(new Line(axis.left(), y, axis.right(), y), "course-grid");
            double value = lane.lowest() + share * (lane.highest() - lane.lowest());
            String words = String.format(Locale.ROOT, "%.0f", 100 * value) + (share == 1 ? "\u2009%" : "");
            pen.rightAligned(axis.left() - 8, y + 4, words, "tick");
        }
    }

    /** All lines, the chosen part's on top; tells of clicks on points the exam and the part. */
    void lines(BiConsumer<Integer, String> onPick) {
        int other = 0;
        for (CourseLines.Line line : lane.lines()) {
            if (!line.isPicked()) {
                line(line, other++, onPick);
            }
        }
        for (CourseLines.Line line : lane.lines()) {
            if (line.isPicked()) {
                line(line, PICKED, onPick);
                line.points().stream().filter(point -> point.value().isEmpty()).forEach(this::notStated);
            }
        }
        for (int n = 0; n < stations.size(); n++) {
            if (isCutOff(n)) {
                pen.mark(new WarningMark(MARK), x(n), top - 8, MARK);
            }
        }
    }

    /** Names right of the lines' ends, pushed apart; tells of clicks the part. */
    void names(List<String> names, double room, Consumer<String> onPick) {
        double[] wished = lane.lines().stream().mapToDouble(this::end).toArray();
        double[] rows = LabelRows.apart(wished, LABEL_ROW, top - 4, bottom + 4);
        for (int n = 0; n < rows.length; n++) {
            CourseLines.Line line = lane.lines().get(n);
            String tone = line.isPicked() ? "end-picked" : "end";
            pen.cut(axis.right() + 10, rows[n] + 4, names.get(n), tone, room - 14)
                    .setOnMousePressed(event -> onPick.accept(line.partId()));
        }
    }

    /** Whether a number of this exam may not be held against the others'. */
    private boolean isCutOff(int station) {
        return lane.lines().stream()
                .map(line -> line.points().get(station))
                .anyMatch(point -> point.value().isPresent() && !point.why().isEmpty());
    }

    private void line(CourseLines.Line line, int style, BiConsumer<Integer, String> onPick) {
        for (Point point : line.points()) {
            if (point.joinedTo().isPresent()) {
                join(line.points().get(point.joinedTo().getAsInt()), point, style);
            }
        }
        for (Point point : line.points()) {
            if (point.value().isPresent()) {
                if (style == PICKED) {
                    whiskers(point);
                }
                point(point, style);
                Circle hit = pen.add(new Circle(x(point.station()), y(point), HIT), "hit");
                int exam = stations.get(point.station()).exam();
                hit.setOnMousePressed(event -> onPick.accept(exam, line.partId()));
            }
        }
    }

    private void join(Point from, Point to, int style) {
        List<Double> between = new ArrayList<>();
        for (int n = from.station() + 1; n < to.station(); n++) {
            between.add(x(n));
        }
        Piece whole = new Piece(x(from.station()), y(from), x(to.station()), y(to));
        for (Piece piece : JoinPieces.of(whole, between, PASSING_GAP)) {
            Line drawn = pen.add(
                    new Line(piece.x1(), piece.y1(), piece.x2(), piece.y2()),
                    style == PICKED ? "course-line-picked" : "course-line");
            if (!between.isEmpty()) {
                drawn.getStrokeDashArray().setAll(PASSING);
            } else if (style != PICKED) {
                drawn.getStrokeDashArray().setAll(DASHES.get(style % DASHES.size()));
            }
        }
    }

    private void point(Point point, int style) {
        double x = x(point.station());
        double y = y(point);
        String tone = point.isStale() ? "stale" : style == PICKED ? "picked" : "";
        pen.add(marker(x, y, style), tone.isEmpty() ? "course-point" : "course-point-" + tone);
        if (point.isStale()) {
            pen.add(new Line(x - STRUCK, y, x + STRUCK, y), "course-struck");
        }
    }

    /** Discs for the chosen part; squares, discs, diamonds in turn for the others, so that dash and marker tell nine. */
    private static Shape marker(double x, double y, int style) {
        if (style == PICKED) {
            return new Circle(x, y, 4.5);
        }
        return switch ((style + style / DASHES.size()) % 3) {
            case 0 -> new Rectangle(x - 3, y - 3, 6, 6);
            case 1 -> new Circle(x, y, 3.2);
            default -> new Polygon(x, y - 4, x + 4, y, x, y + 4, x - 4, y);
        };
    }

    private void whiskers(Point point) {
        double x = snapped(x(point.station()));
        double low = y(point.low().getAsDouble());
        double high = y(point.high().getAsDouble());
        pen.add(new Line(x, low, x, high), "course-whisker");
        pen.add(new Line(x - 3, low, x + 3, low), "course-whisker");
        pen.add(new Line(x - 3, high, x + 3, high), "course-whisker");
    }

    private void notStated(Point point) {
        if (!point.why().equals(CourseLines.NOT_MEASURED)) {
            double x = snapped(x(point.station()));
            pen.mark(new StateMark(PartState.NOT_ASSESSABLE, MARK), x, middle(), MARK);
            pen.say(x + 9, middle() + 4, "not assessable", "tick");
        }
    }

    /** Where a line ends; the middle where nothing is stated, since no place would be true. */
    private double end(CourseLines.Line line) {
        double end = middle();
        for (Point point : line.points()) {
            end = point.value().isPresent() ? y(point) : end;
        }
        return end;
    }

    private double middle() {
        return (top + bottom) / 2;
    }

    private double x(int station) {
        return axis.x(stations.get(station).months());
    }

    private double y(Point point) {
        return y(point.value().getAsDouble());
    }

    private double y(double value) {
        return bottom - (value - lane.lowest()) / (lane.highest() - lane.lowest()) * (bottom - top);
    }
}
