package org.holdfast.figure;

import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;

/** The lane of one interface in a {@link CourseChart}. */
final class CourseLane {

    private static final double HEAD = 26;
    private static final double SCALE_HEIGHT = 120;
    private static final double ROW = 14;
    private static final double FOOT = 16;
    private static final double LABEL_WIDTH = 130;
    private static final double PASSING_GAP = 12;

    private static final TextStyle NAME = TextStyle.of(13, Palette.INK).strong();
    private static final TextStyle TICK = TextStyle.of(11, Palette.INK_FAINT).at(TextStyle.Anchor.END);
    private static final TextStyle VALUE =
            TextStyle.of(12, Palette.INK).strong().at(TextStyle.Anchor.MIDDLE);
    private static final TextStyle UNDER = TextStyle.of(11, Palette.INK_SOFT).at(TextStyle.Anchor.MIDDLE);

    private final Course course;
    private final CourseLine line;
    private final ExamPlaces places;
    private final double top;
    private final double left;
    private final double right;

    CourseLane(Course course, CourseLine line, ExamPlaces places, double top, double left, double right) {
        this.course = course;
        this.line = line;
        this.places = places;
        this.top = top;
        this.left = left;
        this.right = right;
    }

    /** Height of a lane, with as many rows under the points as the nearness of the exams needs. */
    static double height(ExamPlaces places) {
        return HEAD + SCALE_HEIGHT + 6 + ROW * places.rowCount() + FOOT;
    }

    void draw(Drawing.Builder pen) {
        drawScale(pen);
        drawJoins(pen);
        for (int i = 0; i < places.count(); i++) {
            drawPoint(pen, line.points().get(i), i);
        }
    }

    static void drawBounds(Drawing.Builder pen, double x, double highY, double lowY) {
        pen.fill(x - 4, highY, 8, lowY - highY, Palette.BONE.withOpacity(0.28));
        pen.line(x - 6, highY, x + 6, highY, Stroke.of(Palette.BONE, 1.5));
        pen.line(x - 6, lowY, x + 6, lowY, Stroke.of(Palette.BONE, 1.5));
    }

    static void drawTruth(Drawing.Builder pen, double x, double y) {
        pen.ring(x, y, 7, Stroke.of(Palette.INK_SOFT, 1.3));
    }

    private double y(double fraction) {
        return top + HEAD + (1 - fraction) * SCALE_HEIGHT;
    }

    private void drawScale(Drawing.Builder pen) {
        double base = y(1) + 8;
        for (String words : Lettering.lines(line.label(), NAME.sizePx(), LABEL_WIDTH)) {
            pen.words(28, base, words, NAME);
            base += 17;
        }
        for (double fraction : new double[] {0, 0.5, 1}) {
            pen.line(left, y(fraction), right, y(fraction), Stroke.of(Palette.RULE, 1));
            String text = String.format(Locale.ROOT, fraction == 1 ? "%.0f %%" : "%.0f", 100 * fraction);
            pen.words(left - 8, y(fraction) + 4, text, TICK);
        }
        for (int i = 0; i < places.count(); i++) {
            pen.line(places.x(i), y(1), places.x(i), y(0), Stroke.of(Palette.RULE, 1));
        }
    }

    /** Lines between stated points, from each to the latest earlier exam that it may be compared with. */
    private void drawJoins(Drawing.Builder pen) {
        for (int i = 0; i < places.count(); i++) {
            OptionalInt from = latestStated(course.exams().get(i).joinedTo());
            if (from.isPresent() && isStated(i)) {
                drawJoin(pen, from.getAsInt(), i);
            }
        }
    }

    /** One line; over each exam between its ends it is interrupted, so that it does not seem to pass through it. */
    private void drawJoin(Drawing.Builder pen, int from, int to) {
        Stroke solid = Stroke.of(Palette.INK, 2);
        Stroke stroke = from < to - 1 ? solid.with(Stroke.Dash.DASHED) : solid;
        double slope = (y(contact(to)) - y(contact(from))) / Math.max(1, places.x(to) - places.x(from));
        double x = places.x(from);
        for (int next = from + 1; next <= to; next++) {
            double end = next < to ? places.x(next) - PASSING_GAP : places.x(to);
            if (end > x) {
                double startY = y(contact(from)) + slope * (x - places.x(from));
                pen.line(x, startY, end, startY + slope * (end - x), stroke);
            }
            x = places.x(next) + PASSING_GAP;
        }
    }

    /** The exam itself if its fraction is stated here, else the one that it continues, and so on. */
    private OptionalInt latestStated(OptionalInt exam) {
        OptionalInt found = exam;
        while (found.isPresent() && !isStated(found.getAsInt())) {
            found = course.exams().get(found.getAsInt()).joinedTo();
        }
        return found;
    }

    private boolean isStated(int exam) {
        return line.points().get(exam).contact().isPresent();
    }

    private double contact(int exam) {
        return line.points().get(exam).contact().getAsDouble();
    }

    private void drawPoint(Drawing.Builder pen, CoursePoint point, int exam) {
        double x = places.x(exam);
        double under = y(0) + 6 + ROW * (1 + places.row(exam));
        if (point.contact().isPresent()) {
            double highY = y(point.high().getAsDouble());
            drawBounds(pen, x, highY, y(point.low().getAsDouble()));
            pen.disc(x, y(point.contact().getAsDouble()), 4.5, Palette.INK);
            String value = percent(point.contact().getAsDouble());
            String gap = CourseChart.millimetres(point.smallestVisibleGapMm());
            if (places.isCrowded(exam)) {
                pen.words(x, under, gap.isEmpty() ? value : value + ", " + gap, UNDER);
            } else {
                pen.words(x, highY - 7, value, VALUE);
                pen.words(x, under, gap, UNDER);
            }
        } else {
            pen.line(x, y(1), x, y(0), Stroke.of(Palette.CANNOT_TELL, 1.3).with(Stroke.Dash.DOTTED));
            drawCannotTell(pen, x, y(0.5));
            pen.words(x, under, "not stated", UNDER);
        }
        point.truth().ifPresent(truth -> drawTruth(pen, x, y(truth)));
    }

    private static void drawCannotTell(Drawing.Builder pen, double x, double y) {
        double half = 6;
        Stroke stroke = Stroke.of(Palette.CANNOT_TELL, 1.3);
        pen.fill(x - half, y - half, 2 * half, 2 * half, Palette.PAPER);
        pen.frame(x - half, y - half, 2 * half, 2 * half, stroke);
        for (double shift : List.of(-half, 0.0, half)) {
            pen.line(
                    x - half + Math.max(0, shift),
                    y + half + Math.min(0, shift),
                    x + half + Math.min(0, shift),
                    y - half + Math.max(0, shift),
                    stroke);
        }
    }

    private static String percent(double fraction) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * fraction);
    }
}
