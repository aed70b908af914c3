package org.holdfast.desktop.view;

import static org.holdfast.desktop.view.CoursePen.snapped;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.Band;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.JoinPieces;
import org.holdfast.desktop.viewmodel.JoinPieces.Piece;
import org.holdfast.desktop.viewmodel.MonthAxis;

/** Draws one measured quantity of the course: its scale, a line a part, and what is not stated or not comparable. */
final class CourseLaneDrawing {

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
    /** The chosen part by its other estimator: dotted, hollow squares. */
    private static final int SECOND = -2;
    /** Under this height, pixels, a lane has fewer words. */
    private static final double LOW = 44;
    /** Under this height there is room for one value of the scale only. */
    private static final double VERY_LOW = 20;

    private static final List<Double> SECOND_DASHES = List.of(1.5, 3.0);
    private static final double LIMIT_BAR = 5;

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

    /** Its name and values, a rule at each of these shares of its height, and the band of what is no change. */
    void scale(double nameLeft) {
        pen.say(nameLeft, middle() + 4, lane.name(), "lane");
        lane.band().ifPresent(this::band);
        for (double share : shares()) {
            double y = snapped(bottom - share * (bottom - top));
            pen.add(new Line(axis.left(), y, axis.right(), y), "course-grid");
            double value = lane.lowest() + share * (lane.highest() - lane.lowest());
            pen.rightAligned(axis.left() - 8, y + 4, tick(value, share == 1), "tick");
        }
    }

    private double[] shares() {
        return switch (lane.quantity()) {
            case CONTACT -> isLow() ? ends() : new double[] {0, 0.5, 1};
            case ZONE -> ends();
            case SUBSIDENCE, SCREW_ANGLE -> isLow() ? new double[] {0.5} : new double[] {0, 0.5, 1};
        };
    }

    private double[] ends() {
        return bottom - top < VERY_LOW ? new double[] {1} : new double[] {0, 1};
    }

    private String tick(double value, boolean isTop) {
        String unit = isTop ? "\u2009mm" : "";
        return switch (lane.quantity()) {
            case CONTACT -> Words.number(100 * value, 0) + (isTop ? "\u2009%" : "");
            case ZONE, SUBSIDENCE -> Words.number(value, 0) + unit;
            case SCREW_ANGLE -> Words.number(value, 0) + "°";
        };
    }

    private void band(Band band) {
        double high = y(Math.min(band.high(), lane.highest()));
        double low = y(Math.max(band.low(), lane.lowest()));
        pen.add(new Rectangle(axis.left(), high, axis.right() - axis.left(), Math.max(1, low - high)), "course-band");
        if (!isLow()) {
            pen.say(axis.left() + 6, low + 11, "shaded: within error", "tick");
        }
    }

    private boolean isLow() {
        return bottom - top < LOW;
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
            if (line.isPicked() && line.isSecond()) {
                line(line, SECOND, onPick);
            }
        }
        for (CourseLines.Line line : lane.lines()) {
            if (line.isPicked() && !line.isSecond()) {
                line(line, PICKED, onPick);
                line.points().stream()
                        .filter(point ->
                                point.value().isEmpty() && point.unseen().isEmpty())
                        .forEach(this::notStated);
            }
        }
        for (int n = 0; n < stations.size(); n++) {
            if (isCutOff(n)) {
                pen.mark(new WarningMark(MARK), x(n), top - 8, MARK);
            }
        }
    }

    Lane lane() {
        return lane;
    }

    /** Whether a number of this exam may not be held against the others'. */
    private boolean isCutOff(int station) {
        return lane.quantity() == Quantity.CONTACT
                && lane.lines().stream()
                        .map(line -> line.points().get(station))
                        .anyMatch(point ->
                                point.value().isPresent() && !point.why().isEmpty());
    }

    private void line(CourseLines.Line line, int style, BiConsumer<Integer, String> onPick) {
        for (Point point : line.points()) {
            if (point.joinedTo().isPresent()) {
                join(line.points().get(point.joinedTo().getAsInt()), point, style);
            }
        }
        boolean isFirstUnseen = style == PICKED;
        for (Point point : line.points()) {
            if (point.unseen().isPresent()) {
                unseen(point, style, isFirstUnseen);
                isFirstUnseen = false;
            }
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
            if (style == SECOND) {
                drawn.getStrokeDashArray().setAll(SECOND_DASHES);
            } else if (!between.isEmpty()) {
                drawn.getStrokeDashArray().setAll(PASSING);
            } else if (style != PICKED) {
                drawn.getStrokeDashArray().setAll(DASHES.get(style % DASHES.size()));
            }
        }
    }

    private void point(Point point, int style) {
        double x = x(point.station());
        double y = y(point);
        String tone = point.isStale() || style == SECOND ? "stale" : style == PICKED ? "picked" : "";
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
        if (style == SECOND) {
            return new Rectangle(x - 2.5, y - 2.5, 5, 5);
        }
        return switch ((style + style / DASHES.size()) % 3) {
            case 0 -> new Rectangle(x - 3, y - 3, 6, 6);
            case 1 -> new Circle(x, y, 3.2);
            default -> new Polygon(x, y - 4, x + 4, y, x, y + 4, x - 4, y);
        };
    }

    /** A bar at what would not have been seen, with an arrow to nothing: no point, since no number is known. */
    private void unseen(Point point, int style, boolean saysSo) {
        double x = snapped(x(point.station()));
        double at = y(Math.min(lane.highest(), point.unseen().getAsDouble()));
        String tone = style == PICKED ? "course-whisker" : "course-limit";
        pen.add(new Line(x - LIMIT_BAR, at, x + LIMIT_BAR, at), tone);
        pen.add(new Line(x, at, x, bottom), tone);
        pen.add(new Polyline(x - 3, bottom - 4, x, bottom, x + 3, bottom - 4), tone);
        if (saysSo) {
            pen.say(x + LIMIT_BAR + 4, bottom - 2, "none seen", "tick");
        }
    }

    private void whiskers(Point point) {
        if (point.low().isEmpty() || point.high().isEmpty()) {
            return;
        }
        double x = snapped(x(point.station()));
        double low = y(Math.max(lane.lowest(), point.low().getAsDouble()));
        double high = y(Math.min(lane.highest(), point.high().getAsDouble()));
        pen.add(new Line(x, low, x, high), "course-whisker");
        pen.add(new Line(x - 3, low, x + 3, low), "course-whisker");
        pen.add(new Line(x - 3, high, x + 3, high), "course-whisker");
    }

    private void notStated(Point point) {
        if (!point.why().equals(CourseLines.NOT_MEASURED)) {
            double x = snapped(x(point.station()));
            pen.mark(new StateMark(PartState.NOT_ASSESSABLE, MARK), x, middle(), MARK);
            if (!isLow()) {
                pen.say(x + 9, middle() + 4, "not assessable", "tick");
            }
        }
    }

    /** Where a line ends; the middle where nothing is stated, since no place would be true. */
    double end(CourseLines.Line line) {
        double end = middle();
        for (Point point : line.points()) {
            end = point.value().isPresent() ? y(point) : point.unseen().isPresent() ? bottom : end;
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
