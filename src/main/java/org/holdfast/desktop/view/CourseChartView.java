package org.holdfast.desktop.view;

import java.util.List;
import java.util.Locale;
import java.util.function.BiConsumer;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.CubicCurve;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import javafx.scene.text.Text;
import org.holdfast.desktop.state.ShortName;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseTable;
import org.holdfast.desktop.viewmodel.LabelRows;
import org.holdfast.desktop.viewmodel.MonthAxis;

/** The course on true months: lanes of what was measured, threads from the exams' columns to their months. */
final class CourseChartView extends Region {

    private static final double LEFT = 76;
    private static final double RIGHT = 150;
    private static final double COMPACT_RIGHT = 116;
    private static final double THREADS = 30;
    private static final double AXIS = 24;
    private static final double LABEL_ROW = 14;
    private static final double HIT = 11;
    private static final List<List<Double>> DASHES =
            List.of(List.of(4.0, 3.0), List.of(1.5, 2.5), List.of(7.0, 2.0, 1.5, 2.0));

    private final Group drawing = new Group();
    private CourseLines lines = new CourseLines(List.of(), List.of(), List.of());
    private int pickedExam;
    private boolean compact;
    private double[] centres = new double[0];
    private List<Integer> columns = List.of();
    private BiConsumer<Integer, String> onPick = (exam, part) -> {};

    CourseChartView() {
        drawing.setManaged(false);
        getChildren().add(drawing);
        getStyleClass().add("course");
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
    }

    /** Told the exam and the part of a point that was clicked. */
    void setOnPick(BiConsumer<Integer, String> picked) {
        onPick = picked;
    }

    void show(CourseLines course, int exam, boolean isCompact) {
        lines = course;
        pickedExam = exam;
        compact = isCompact;
        setAccessibleText(CourseTable.of(course));
        requestLayout();
    }

    /** Middles of the exams' columns, logical pixels from this chart's left, and which exams they are. */
    void setColumnCentres(double[] middles, List<Integer> exams) {
        centres = middles.clone();
        columns = List.copyOf(exams);
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        drawing.getChildren().clear();
        if (lines.stations().isEmpty() || getWidth() < 200) {
            say(LEFT, 40, "no exam has a day: there is no axis to draw", "tick");
            return;
        }
        double right = getWidth() - (compact ? COMPACT_RIGHT : RIGHT);
        MonthAxis axis =
                MonthAxis.of(lines.stations().stream().map(Station::months).toList(), LEFT, right);
        double bottom = getHeight() - AXIS;
        double top = THREADS + 8;
        stations(axis, top, bottom);
        ticks(axis, bottom);
        double height = (bottom - top) / Math.max(1, lines.lanes().size());
        for (int n = 0; n < lines.lanes().size(); n++) {
            lane(lines.lanes().get(n), axis, top + n * height + 8, top + (n + 1) * height - 10);
        }
        if (!lines.undated().isEmpty()) {
            say(LEFT, getHeight() - 2, "undated, not on the axis: " + String.join(", ", lines.undated()), "tick");
        }
    }

    private void stations(MonthAxis axis, double top, double bottom) {
        for (Station station : lines.stations()) {
            double x = snapped(axis.x(station.months()));
            boolean picked = station.exam() == pickedExam;
            add(new Line(x, top, x, bottom), picked ? "course-station-picked" : "course-station");
            int column = columns.indexOf(station.exam());
            if (column >= 0 && column < centres.length) {
                double from = snapped(centres[column]);
                CubicCurve thread = new CubicCurve(from, 0, from, top * 0.8, x, top * 0.2, x, top);
                add(thread, picked ? "course-thread-picked" : "course-thread");
            }
        }
    }

    private void ticks(MonthAxis axis, double bottom) {
        add(new Line(LEFT, snapped(bottom), axis.right(), snapped(bottom)), "course-axis");
        List<Integer> ticks = axis.ticks();
        for (int month : ticks) {
            double x = snapped(axis.x(month));
            add(new Line(x, bottom, x, bottom + 4), "course-axis");
            boolean last = month == ticks.get(ticks.size() - 1);
            centred(x, bottom + 16, month + (last ? "\u2009mo" : ""), "tick");
        }
    }

    private void lane(Lane lane, MonthAxis axis, double top, double bottom) {
        say(4, (top + bottom) / 2 + 4, lane.name(), "lane");
        for (double share : compact ? new double[] {0, 1} : new double[] {0, 0.5, 1}) {
            double y = snapped(bottom - share * (bottom - top));
            add(new Line(LEFT, y, axis.right(), y), "course-grid");
            double value = lane.lowest() + share * (lane.highest() - lane.lowest());
            String words = String.format(Locale.ROOT, "%.0f", 100 * value) + (share == 1 ? "\u2009%" : "");
            rightAligned(LEFT - 8, y + 4, words, "tick");
        }
        double[] ends = new double[lane.lines().size()];
        int other = 0;
        for (int n = 0; n < ends.length; n++) {
            CourseLines.Line line = lane.lines().get(n);
            int style = line.isPicked() ? -1 : other++ % DASHES.size();
            ends[n] = line(line, lane, axis, top, bottom, style);
        }
        double[] rows = LabelRows.apart(ends, LABEL_ROW, top - 4, bottom + 4);
        for (int n = 0; n < ends.length; n++) {
            CourseLines.Line line = lane.lines().get(n);
            String tone = line.isPicked() ? "end-picked" : "end";
            Text label = say(axis.right() + 10, rows[n] + 4, shortened(line.label(), tone), tone);
            label.setOnMousePressed(event -> onPick.accept(pickedExam, line.partId()));
        }
    }

    /** Draws a line; gives the height at which it ends. */
    private double line(CourseLines.Line line, Lane lane, MonthAxis axis, double top, double bottom, int style) {
        double end = bottom;
        for (Point point : line.points()) {
            double x = axis.x(lines.stations().get(point.station()).months());
            if (point.value().isEmpty()) {
                if (line.isPicked() && !point.why().equals(CourseLines.NOT_MEASURED)) {
                    cannotTell(snapped(x), (top + bottom) / 2);
                }
                continue;
            }
            double y = y(lane, point.value().getAsDouble(), top, bottom);
            end = y;
            if (point.joinedTo().isPresent()) {
                Point from = line.points().get(point.joinedTo().getAsInt());
                Line join = new Line(
                        axis.x(lines.stations().get(from.station()).months()),
                        y(lane, from.value().getAsDouble(), top, bottom),
                        x,
                        y);
                add(join, line.isPicked() ? "course-line-picked" : "course-line");
                if (style >= 0) {
                    join.getStrokeDashArray().setAll(DASHES.get(style));
                }
            } else if (point.station() > 0 && !point.why().isEmpty() && line.isPicked()) {
                notComparable(x, top);
            }
            if (line.isPicked()) {
                whiskers(lane, point, snapped(x), top, bottom);
            }
            marker(line, point, x, y, style);
        }
        return end;
    }

    private void marker(CourseLines.Line line, Point point, double x, double y, int style) {
        Shape mark = style == 0 ? new Rectangle(x - 3, y - 3, 6, 6) : new Circle(x, y, style < 0 ? 4.5 : 3.2);
        add(mark, point.isStale() ? "course-point-stale" : line.isPicked() ? "course-point-picked" : "course-point");
        Circle hit = new Circle(x, y, HIT);
        hit.getStyleClass().add("hit");
        int exam = lines.stations().get(point.station()).exam();
        hit.setOnMousePressed(event -> onPick.accept(exam, line.partId()));
        drawing.getChildren().add(hit);
    }

    private void whiskers(Lane lane, Point point, double x, double top, double bottom) {
        double low = y(lane, point.low().getAsDouble(), top, bottom);
        double high = y(lane, point.high().getAsDouble(), top, bottom);
        add(new Line(x, low, x, high), "course-whisker");
        add(new Line(x - 3, low, x + 3, low), "course-whisker");
        add(new Line(x - 3, high, x + 3, high), "course-whisker");
    }

    private void cannotTell(double x, double y) {
        StateMark mark = new StateMark(org.holdfast.desktop.state.PartState.NOT_ASSESSABLE, 12);
        mark.relocate(x - 6, y - 6);
        mark.resize(12, 12);
        drawing.getChildren().add(mark);
        say(x + 9, y + 4, "not assessable", "tick");
    }

    private void notComparable(double x, double top) {
        WarningMark mark = new WarningMark(12);
        mark.relocate(x - 6, top - 14);
        mark.resize(12, 12);
        drawing.getChildren().add(mark);
    }

    private static double y(Lane lane, double value, double top, double bottom) {
        return bottom - (value - lane.lowest()) / (lane.highest() - lane.lowest()) * (bottom - top);
    }

    /** A label cut to the room that it has at the right. */
    private String shortened(String label, String tone) {
        double room = (compact ? COMPACT_RIGHT : RIGHT) - 14;
        String name = compact ? ShortName.of(label) : label;
        Text text = new Text(name);
        text.getStyleClass().addAll("course-text", tone);
        drawing.getChildren().add(text);
        text.applyCss();
        while (name.length() > 2 && text.getLayoutBounds().getWidth() > room) {
            name = name.substring(0, name.length() - 2).stripTrailing() + "…";
            text.setText(name);
        }
        drawing.getChildren().remove(text);
        return name;
    }

    private void add(Node node, String name) {
        node.getStyleClass().add(name);
        drawing.getChildren().add(node);
    }

    private Text say(double x, double y, String words, String tone) {
        Text text = new Text(x, y, words);
        text.getStyleClass().addAll("course-text", tone);
        drawing.getChildren().add(text);
        return text;
    }

    private void centred(double x, double y, String words, String tone) {
        Text text = say(x, y, words, tone);
        text.applyCss();
        text.setX(x - text.getLayoutBounds().getWidth() / 2);
    }

    private void rightAligned(double x, double y, String words, String tone) {
        Text text = say(x, y, words, tone);
        text.applyCss();
        text.setX(x - text.getLayoutBounds().getWidth());
    }

    private static double snapped(double at) {
        return Math.floor(at) + 0.5;
    }
}
