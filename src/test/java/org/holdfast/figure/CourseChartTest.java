package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.holdfast.app.Caution;
import org.junit.jupiter.api.Test;

final class CourseChartTest {

    private static final Drawing CHART = CourseChart.draw(SampleCourse.course());

    @Test
    void joinsOnlyExamsThatMayBeCompared() {
        CourseLine line = new CourseLine("a", List.of(stated(0.1), stated(0.2), stated(0.3)));
        List<Mark.Line> joins = joins(List.of(exam(0, -1), exam(3, -1), exam(6, 1)), line);
        assertEquals(1, joins.size());
        assertEquals(Stroke.Dash.SOLID, joins.get(0).stroke().dash());
    }

    @Test
    void interruptsAndDashesALineWhereItPassesOverAnExam() {
        CourseLine line = new CourseLine("a", List.of(stated(0.1), stated(0.9), stated(0.3)));
        List<Mark.Line> joins = joins(List.of(exam(0, -1), exam(6, -1), exam(12, 0)), line);
        assertEquals(2, joins.size());
        assertTrue(joins.stream().allMatch(join -> join.stroke().dash() == Stroke.Dash.DASHED));
        double passedX = (joins.get(0).from().x() + joins.get(1).to().x()) / 2;
        assertTrue(joins.get(0).to().x() < passedX - 10);
        assertTrue(joins.get(1).from().x() > passedX + 10);
    }

    @Test
    void goesOnFromTheExamBeforeOneThatIsNotStated() {
        CourseLine line = new CourseLine("a", List.of(stated(0.1), CoursePoint.notStated("artefact"), stated(0.3)));
        List<Mark.Line> joins = joins(List.of(exam(0, -1), exam(6, 0), exam(12, 1)), line);
        assertEquals(2, joins.size());
        assertTrue(joins.stream().allMatch(join -> join.stroke().dash() == Stroke.Dash.DASHED));
    }

    @Test
    void writesNumberBoundsAndSmallestVisibleGapTogether() {
        assertTrue(words().contains("76.5 %"));
        assertTrue(words().contains("1.35 mm"));
        // By hand: 9 stated points and the legend, a translucent bar each.
        assertEquals(
                10,
                CHART.marks().stream()
                        .filter(mark -> mark instanceof Mark.Rectangle box
                                && box.fill().filter(fill -> fill.opacity() < 1).isPresent())
                        .count());
    }

    @Test
    void movesValuesOfCrowdedExamsUnderThemIntoRowsOfTheirOwn() {
        List<CourseExam> exams = List.of(exam(0, -1), exam(0.2, 0), exam(24, 1));
        List<CoursePoint> points = List.of(
                stated(0.1).withSmallestVisibleGapMm(1.2), stated(0.2).withSmallestVisibleGapMm(1.2), stated(0.3));
        Drawing drawing = CourseChart.draw(new Course("", "", exams, List.of(new CourseLine("a", points)), ""));
        List<Mark.Words> crowded = drawing.marks().stream()
                .filter(mark -> mark instanceof Mark.Words text && text.text().endsWith("0 %, 1.20 mm"))
                .map(Mark.Words.class::cast)
                .toList();
        assertEquals(
                List.of("10.0 %, 1.20 mm", "20.0 %, 1.20 mm"),
                crowded.stream().map(Mark.Words::text).toList());
        assertTrue(crowded.get(1).place().y() > crowded.get(0).place().y() + 10);
        assertTrue(words(drawing).contains("30.0 %"));
    }

    @Test
    void keepsALongRemarkOfTheLastExamOnThePaper() {
        String remark = "other scanner model, other slice thickness";
        CourseExam last = new CourseExam("24 mo", 24, OptionalInt.empty(), remark);
        Drawing drawing = CourseChart.draw(new Course("", "", List.of(exam(0, -1), last), List.of(), ""));
        Mark.Words words = drawing.marks().stream()
                .filter(mark -> mark instanceof Mark.Words text && text.text().equals(remark))
                .map(Mark.Words.class::cast)
                .findFirst()
                .orElseThrow();
        assertTrue(words.place().x() + Lettering.widthPx(remark, words.style().sizePx()) / 2 <= drawing.widthPx());
    }

    @Test
    void saysWhyAFractionIsNotStated() {
        assertTrue(words().contains("not stated"));
        assertTrue(words().contains("Caudal interface, 3 mo: not stated, bone below threshold beyond guard"));
    }

    @Test
    void drawsTheTruthAsOpenMarksAndExplainsThemOnlyWhereThereIsOne() {
        // By hand: 10 points with a truth and the legend.
        assertEquals(11, rings(CHART));
        CourseLine line = new CourseLine("a", List.of(stated(0.1)));
        Drawing without = CourseChart.draw(new Course("", "", List.of(exam(0, -1)), List.of(line), ""));
        assertEquals(0, rings(without));
        assertTrue(words(without).stream().noneMatch(text -> text.contains("truth")));
    }

    @Test
    void endsWithTheWholeCaution() {
        assertTrue(String.join(" ", words()).endsWith(Caution.TEXT));
    }

    @Test
    void keepsEveryMarkOnThePaper() {
        for (Mark mark : CHART.marks()) {
            if (mark instanceof Mark.Words text) {
                assertTrue(text.place().x() >= 0 && text.place().x() <= CHART.widthPx(), text::text);
                assertTrue(text.place().y() >= 0 && text.place().y() <= CHART.heightPx(), text::text);
            }
        }
    }

    @Test
    void refusesCoursesThatDoNotFitTogether() {
        CourseLine one = new CourseLine("a", List.of(stated(0.1)));
        List<CourseExam> two = List.of(exam(0, -1), exam(3, 0));
        List<CourseExam> backwards = List.of(exam(3, -1), exam(0, -1));
        List<CourseExam> ahead = List.of(exam(0, 0));
        assertThrows(IllegalArgumentException.class, () -> new Course("", "", two, List.of(one), ""));
        assertThrows(IllegalArgumentException.class, () -> new Course("", "", backwards, List.of(), ""));
        assertThrows(IllegalArgumentException.class, () -> new Course("", "", ahead, List.of(one), ""));
        assertThrows(IllegalArgumentException.class, () -> new Course("", "", List.of(), List.of(), ""));
        assertThrows(IllegalArgumentException.class, () -> CoursePoint.stated(1.01, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> CoursePoint.stated(Double.NaN, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> CoursePoint.notStated(""));
    }

    private static CourseExam exam(double months, int joinedTo) {
        return new CourseExam("", months, joinedTo < 0 ? OptionalInt.empty() : OptionalInt.of(joinedTo), "");
    }

    private static CoursePoint stated(double contact) {
        return CoursePoint.stated(contact, 0, 1);
    }

    /** The lines between points: the only ones that are two pixels wide. */
    private static List<Mark.Line> joins(List<CourseExam> exams, CourseLine line) {
        return CourseChart.draw(new Course("", "", exams, List.of(line), "")).marks().stream()
                .filter(Mark.Line.class::isInstance)
                .map(Mark.Line.class::cast)
                .filter(mark -> mark.stroke().widthPx() == 2)
                .toList();
    }

    private static long rings(Drawing drawing) {
        return drawing.marks().stream()
                .filter(mark ->
                        mark instanceof Mark.Circle circle && circle.fill().isEmpty())
                .count();
    }

    private static List<String> words() {
        return words(CHART);
    }

    private static List<String> words(Drawing drawing) {
        return drawing.marks().stream()
                .filter(Mark.Words.class::isInstance)
                .map(mark -> ((Mark.Words) mark).text())
                .collect(Collectors.toList());
    }
}
