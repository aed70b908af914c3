package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import javafx.scene.text.Text;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.viewmodel.CourseLines;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * A chart 722 wide: its axis runs from 92 to 572, 20 pixels a month for 24 months. Exam 1 may not be held against the
 * others, exam 3 says nothing of the chosen part, exam 4 has old settings.
 */
@ExtendWith(WindowTest.class)
final class CourseChartViewTest {

    private static final double WIDTH = 722;
    private static final double HEIGHT = 236;
    private static final double HALF_PIXEL = 0.5;

    private static final List<Station> STATIONS = List.of(
            new Station(0, "surgery", 0),
            new Station(1, "3 mo", 3),
            new Station(2, "6 mo", 6),
            new Station(3, "12 mo", 12),
            new Station(4, "24 mo", 24));

    private static Point stated(int station, double value, OptionalInt joinedTo, String why, boolean isStale) {
        return new Point(
                station,
                OptionalDouble.of(value),
                OptionalDouble.of(value - 0.05),
                OptionalDouble.of(value + 0.1),
                isStale,
                joinedTo,
                why);
    }

    private static CourseLines course(List<String> undated) {
        OptionalInt none = OptionalInt.empty();
        List<Point> picked = List.of(
                stated(0, 0.2, none, "", false),
                stated(1, 0.5, none, "not comparable", false),
                stated(2, 0.4, OptionalInt.of(0), "", false),
                new Point(
                        3,
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        false,
                        none,
                        "hidden"),
                stated(4, 0.6, none, "", true));
        List<Point> other = STATIONS.stream()
                .map(s -> new Point(
                        s.exam(),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        false,
                        none,
                        CourseLines.NOT_MEASURED))
                .toList();
        Lane lane = new Lane(
                CourseLines.Quantity.CONTACT,
                0,
                1,
                Optional.empty(),
                List.of(
                        new CourseLines.Line("cranial", "Cranial", true, picked),
                        new CourseLines.Line("caudal", "Caudal", false, other)));
        return new CourseLines(STATIONS, List.of(lane), undated);
    }

    private static CourseChartView laidOut(CourseLines course, boolean compact, double height) {
        CourseChartView chart = new CourseChartView();
        Scene scene = new Scene(new Pane(chart), WIDTH, height);
        Fonts.load();
        Theme.DARK.apply(scene);
        chart.show(course, 2, compact);
        chart.setColumnCentres(new double[] {60, 200, 340, 480, 620}, List.of(0, 1, 2, 3, 4));
        chart.setManaged(false);
        chart.resize(WIDTH, height);
        scene.getRoot().applyCss();
        chart.layout();
        scene.getRoot().applyCss();
        return chart;
    }

    private static <T extends Node> List<T> all(CourseChartView chart, Class<T> kind, String style) {
        return chart.lookupAll("." + style).stream()
                .filter(kind::isInstance)
                .map(kind::cast)
                .toList();
    }

    @Test
    void placesEachPointAtItsTrueMonth() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            List<Double> places = all(chart, Circle.class, "course-point-picked").stream()
                    .map(Circle::getCenterX)
                    .toList();
            // By hand: 92 + 20 · months.
            assertEquals(List.of(92.0, 152.0, 212.0), places);
        });
    }

    @Test
    void neverDrawsALineThroughAnExamThatItPassesOver() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            List<Line> joins = all(chart, Line.class, "course-line-picked");
            assertEquals(2, joins.size());
            for (Line join : joins) {
                assertTrue(join.getEndX() < 152 || join.getStartX() > 152, join::toString);
                assertTrue(!join.getStrokeDashArray().isEmpty());
            }
            long warnings = chart.lookupAll("*").stream()
                    .filter(WarningMark.class::isInstance)
                    .count();
            assertEquals(1, warnings);
        });
    }

    @Test
    void strikesWhatHasOldSettings() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            Circle stale = all(chart, Circle.class, "course-point-stale").get(0);
            Line struck = all(chart, Line.class, "course-struck").get(0);
            assertEquals(stale.getCenterY(), struck.getStartY());
            assertTrue(struck.getStartX() < stale.getCenterX() && struck.getEndX() > stale.getCenterX());
        });
    }

    @Test
    void saysNotAssessableWhereNoNumberIsStated() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            List<Text> words = all(chart, Text.class, "course-text").stream()
                    .filter(text -> text.getText().equals("not assessable"))
                    .toList();
            assertEquals(1, words.size());
            // By hand: the exam is at 92 + 240; the words begin 9 right of the middle of its pixel.
            assertEquals(341.5, words.get(0).getX(), HALF_PIXEL);
        });
    }

    @Test
    void clicksPickExamAndPart() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            List<String> picked = new ArrayList<>();
            chart.setOnPick((exam, part) -> picked.add(exam + " " + part));
            chart.setOnPickExam(exam -> picked.add("exam " + exam));
            all(chart, Circle.class, "hit").get(1).getOnMousePressed().handle(Events.pressed());
            all(chart, Rectangle.class, "hit").get(3).getOnMousePressed().handle(Events.pressed());
            all(chart, Text.class, "end").get(0).getOnMousePressed().handle(Events.pressed());
            assertEquals(List.of("1 cranial", "exam 3", "2 caudal"), picked);
        });
    }

    @Test
    void wordsLieWithinTheChartAndDoNotMeet() throws Exception {
        WindowTest.fxRun(() -> {
            for (boolean compact : new boolean[] {false, true}) {
                CourseChartView chart = laidOut(course(List.of("unknown day")), compact, compact ? 158 : HEIGHT);
                List<Text> words = all(chart, Text.class, "course-text");
                for (Text one : words) {
                    Bounds bounds = one.getBoundsInParent();
                    assertTrue(
                            bounds.getMinX() >= 0 && bounds.getMaxX() <= WIDTH && bounds.getMaxY() <= chart.getHeight(),
                            one.getText() + " at " + bounds);
                    for (Text other : words) {
                        boolean meet = one != other && bounds.intersects(inner(other.getBoundsInParent()));
                        assertTrue(!meet, one.getText() + " meets " + other.getText());
                    }
                }
            }
        });
    }

    /** Lines of text have room above and below their letters: a pixel of it may meet another's. */
    private static Bounds inner(Bounds b) {
        return new javafx.geometry.BoundingBox(
                b.getMinX() + 1, b.getMinY() + 2, Math.max(0, b.getWidth() - 2), Math.max(0, b.getHeight() - 4));
    }

    @Test
    void threadsRunFromTheColumnsToTheMonths() throws Exception {
        WindowTest.fxRun(() -> {
            CourseChartView chart = laidOut(course(List.of()), false, HEIGHT);
            assertEquals(4, chart.lookupAll(".course-thread").size());
            javafx.scene.shape.CubicCurve picked = all(
                            chart, javafx.scene.shape.CubicCurve.class, "course-thread-picked")
                    .get(0);
            // By hand: column 2 has its middle at 340, month 6 lies at 212; both in the middle of their pixels.
            assertEquals(340.5, picked.getStartX());
            assertEquals(212.5, picked.getEndX());
        });
    }
}
