package org.holdfast.desktop.view;

import static org.holdfast.desktop.view.CoursePen.snapped;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.IntConsumer;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.layout.Region;
import javafx.scene.shape.CubicCurve;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import org.holdfast.desktop.state.ShortName;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseTable;
import org.holdfast.desktop.viewmodel.LabelRows;
import org.holdfast.desktop.viewmodel.MonthAxis;

/** The course on true months: lanes of what was measured, threads from the exams' columns to their months. */
final class CourseChartView extends Region {

    private static final double LEFT = 92;
    private static final double RIGHT = 150;
    private static final double COMPACT_RIGHT = 116;
    private static final double THREADS = 38;
    private static final double AXIS = 24;
    private static final double UNDATED_ROW = 13;
    /** Half the width on which a click counts as one on an exam. */
    private static final double STATION_HIT = 5;

    private static final double NAME_ROW = 13;
    /** More lines of a lane that are not chosen have one name. */
    private static final int MOST_OTHERS = 2;

    private static final double BREAK_ROW = 14;
    private static final int MOST_BREAK_ROWS = 2;

    private final Group drawing = new Group();
    private final CoursePen pen = new CoursePen(drawing);
    private CourseLines lines = new CourseLines(List.of(), List.of(), List.of());
    private int pickedExam;
    private boolean compact;
    private double[] centres = new double[0];
    private List<Integer> columns = List.of();
    private BiConsumer<Integer, String> onPick = (exam, part) -> {};
    private IntConsumer onPickExam = exam -> {};

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

    /** Told the exam whose place on the axis was clicked. */
    void setOnPickExam(IntConsumer picked) {
        onPickExam = picked;
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
        if (Arrays.equals(middles, centres) && exams.equals(columns)) {
            return;
        }
        centres = middles.clone();
        columns = List.copyOf(exams);
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        drawing.getChildren().clear();
        if (lines.stations().isEmpty() || getWidth() < 200) {
            pen.say(LEFT, 40, "no exam has a day: there is no axis to draw", "tick");
            return;
        }
        double right = getWidth() - rightRoom();
        MonthAxis axis =
                MonthAxis.of(lines.stations().stream().map(Station::months).toList(), LEFT, right);
        double bottom = getHeight() - AXIS - (lines.undated().isEmpty() ? 0 : UNDATED_ROW);
        lines.stations().forEach(station -> station(station, snapped(axis.x(station.months())), bottom));
        ticks(axis, bottom);
        double lanesBottom = bottom - breakRows() * BREAK_ROW;
        double weights =
                lines.lanes().stream().mapToDouble(CourseChartView::weight).sum();
        double laneTop = THREADS;
        List<CourseLaneDrawing> drawn = new ArrayList<>();
        for (Lane lane : lines.lanes()) {
            double height = (lanesBottom - THREADS) * weight(lane) / weights;
            double space = Math.min(8, 0.16 * height);
            drawn.add(lane(lane, axis, laneTop + space, laneTop + height - space));
            laneTop += height;
        }
        names(drawn, axis, lanesBottom);
        new BreakRows(pen, lines, axis, breakRows(), getWidth())
                .draw(lanesBottom, BREAK_ROW, (exam, part) -> onPick.accept(exam, part));
        if (!lines.undated().isEmpty()) {
            String words = "undated, not on the axis: " + String.join(", ", lines.undated());
            pen.cut(LEFT, getHeight() - 4, words, "tick", getWidth() - LEFT);
        }
    }

    /** The lane of the chosen part is higher than the others; contact has the most to tell. */
    private static double weight(Lane lane) {
        boolean isPicked = lane.lines().stream().anyMatch(CourseLines.Line::isPicked);
        return isPicked ? 3 : lane.quantity() == Quantity.CONTACT ? 1.8 : 1;
    }

    private int breakRows() {
        return Math.min(MOST_BREAK_ROWS, lines.breaks().size());
    }

    private double rightRoom() {
        return compact ? COMPACT_RIGHT : RIGHT;
    }

    /** An exam on the axis, with the thread from its column; a click on it picks the exam. */
    private void station(Station station, double x, double bottom) {
        boolean picked = station.exam() == pickedExam;
        pen.add(new Line(x, THREADS, x, bottom), picked ? "course-station-picked" : "course-station");
        int column = columns.indexOf(station.exam());
        if (column >= 0 && column < centres.length) {
            double from = snapped(centres[column]);
            CubicCurve thread = new CubicCurve(from, 0, from, THREADS * 0.8, x, THREADS * 0.2, x, THREADS);
            pen.add(thread, picked ? "course-thread-picked" : "course-thread");
        }
        Rectangle hit = pen.add(new Rectangle(x - STATION_HIT, THREADS, 2 * STATION_HIT, bottom - THREADS), "hit");
        hit.setOnMousePressed(event -> onPickExam.accept(station.exam()));
    }

    private void ticks(MonthAxis axis, double bottom) {
        pen.add(new Line(LEFT, snapped(bottom), axis.right(), snapped(bottom)), "course-axis");
        List<Integer> ticks = axis.ticks();
        for (int month : ticks) {
            double x = snapped(axis.x(month));
            pen.add(new Line(x, bottom, x, bottom + 4), "course-axis");
            boolean last = month == ticks.get(ticks.size() - 1);
            pen.centred(x, bottom + 16, month + (last ? "\u2009mo" : ""), "tick");
        }
    }

    private CourseLaneDrawing lane(Lane lane, MonthAxis axis, double top, double bottom) {
        CourseLaneDrawing drawn = new CourseLaneDrawing(pen, lines.stations(), lane, axis, top, bottom);
        drawn.scale(4);
        drawn.lines((exam, part) -> onPick.accept(exam, part));
        return drawn;
    }

    /** Names right of the ends of all lines, pushed apart over all lanes. */
    private void names(List<CourseLaneDrawing> drawn, MonthAxis axis, double bottom) {
        List<CourseLines.Line> all = new ArrayList<>();
        List<Double> wished = new ArrayList<>();
        List<String> suffixes = new ArrayList<>();
        for (CourseLaneDrawing lane : drawn) {
            List<CourseLines.Line> others = lane.lane().lines().stream()
                    .filter(line -> !line.isPicked())
                    .toList();
            // Many lines that are not chosen are named by the highest of them.
            Optional<CourseLines.Line> one = others.size() > MOST_OTHERS
                    ? others.stream().min(Comparator.comparingDouble(lane::end))
                    : Optional.empty();
            for (CourseLines.Line line : lane.lane().lines()) {
                if (line.isPicked() || one.isEmpty() || one.get() == line) {
                    all.add(line);
                    wished.add(lane.end(line));
                    boolean isOne = one.isPresent() && one.get() == line;
                    suffixes.add(isOne ? " +" + (others.size() - 1) : "");
                }
            }
        }
        double row = Math.min(NAME_ROW, (bottom - THREADS + NAME_ROW) / Math.max(1, all.size()));
        double[] rows =
                LabelRows.apart(wished.stream().mapToDouble(Double::doubleValue).toArray(), row, THREADS, bottom);
        for (int n = 0; n < rows.length; n++) {
            CourseLines.Line line = all.get(n);
            String label = compact ? ShortName.of(line.label()) : line.label();
            String tone = line.isPicked() && !line.isSecond() ? "end-picked" : "end";
            pen.cut(axis.right() + 10, rows[n] + 4, label + suffixes.get(n), tone, rightRoom() - 14)
                    .setOnMousePressed(event -> onPick.accept(pickedExam, line.partId()));
        }
    }
}
