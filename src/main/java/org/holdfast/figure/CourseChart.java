package org.holdfast.figure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * Draws the contact of each interface in a lane of its own over true months since surgery: the fraction with its bounds
 * as a bar, the smallest gap that the scan shows under it, a phantom's truth as an open mark. Exams that may not be
 * compared are never joined by a line; where a line passes over such an exam it is dashed. Stateless.
 */
public final class CourseChart {

    private static final double WIDTH = 960;
    private static final double MARGIN = 28;
    private static final double PLOT_LEFT = 212;
    private static final double PLOT_RIGHT = WIDTH - 64;
    private static final double TITLE_BASE = 40;
    private static final double SUBTITLE_BASE = 61;
    private static final double LABELS_BASE = 94;
    private static final double ROW = 15;
    private static final double LABEL_GAP = 8;
    private static final double TEXT_WIDTH = WIDTH - 2 * MARGIN;

    private static final TextStyle TITLE = TextStyle.of(17, Palette.INK).strong();
    private static final TextStyle SUBTITLE = TextStyle.of(12, Palette.INK_SOFT);
    private static final TextStyle EXAM = TextStyle.of(13, Palette.INK).strong().at(TextStyle.Anchor.MIDDLE);
    private static final TextStyle REMARK = TextStyle.of(11, Palette.CHANGE).at(TextStyle.Anchor.MIDDLE);
    private static final TextStyle TICK = TextStyle.of(11, Palette.INK_FAINT).at(TextStyle.Anchor.MIDDLE);
    private static final TextStyle SMALL = TextStyle.of(11, Palette.INK_SOFT);

    private final Course course;
    private final TimeAxis axis;
    private final ExamPlaces places;
    private final double[] labelX;
    private final int[] labelRows;
    private final Drawing.Builder pen = new Drawing.Builder();

    private CourseChart(Course course) {
        this.course = course;
        this.axis = new TimeAxis(course.exams(), PLOT_LEFT, PLOT_RIGHT);
        this.places = new ExamPlaces(course.exams().stream()
                .mapToDouble(exam -> axis.x(exam.monthsSinceSurgery()))
                .toArray());
        double[] widths =
                course.exams().stream().mapToDouble(CourseChart::labelWidth).toArray();
        this.labelX = IntStream.range(0, widths.length)
                .mapToDouble(i -> Math.min(places.x(i), WIDTH - LABEL_GAP - widths[i] / 2))
                .toArray();
        this.labelRows = Lettering.rows(labelX, widths);
    }

    /** The chart of a course. */
    public static Drawing draw(Course course) {
        return new CourseChart(course).draw();
    }

    private Drawing draw() {
        pen.words(MARGIN, TITLE_BASE, course.title(), TITLE);
        pen.words(MARGIN, SUBTITLE_BASE, course.subtitle(), SUBTITLE);
        double y = LABELS_BASE + 2 * ROW * (1 + IntStream.of(labelRows).max().orElse(0));
        drawExams();
        for (CourseLine line : course.lines()) {
            new CourseLane(course, line, places, y, PLOT_LEFT, PLOT_RIGHT).draw(pen);
            y += CourseLane.height(places);
        }
        y = drawTimeAxis(y);
        y = drawLegend(y + 2 * ROW);
        y = drawReasons(y + 0.5 * ROW);
        y = drawParagraph(course.caution(), y + 0.5 * ROW);
        return pen.build(WIDTH, y + MARGIN - ROW, course.title(), Palette.PAPER);
    }

    private void drawExams() {
        for (int i = 0; i < places.count(); i++) {
            CourseExam exam = course.exams().get(i);
            double base = LABELS_BASE + 2 * ROW * labelRows[i];
            pen.words(labelX[i], base, exam.label(), EXAM);
            pen.words(labelX[i], base + ROW, exam.remark(), REMARK);
        }
    }

    private static double labelWidth(CourseExam exam) {
        return LABEL_GAP
                + Math.max(
                        Lettering.widthPx(exam.label(), EXAM.sizePx()),
                        Lettering.widthPx(exam.remark(), REMARK.sizePx()));
    }

    private double drawTimeAxis(double y) {
        pen.line(PLOT_LEFT, y, PLOT_RIGHT, y, Stroke.of(Palette.INK_SOFT, 1));
        for (double month : axis.ticks()) {
            double x = axis.x(month);
            pen.line(x, y, x, y + 5, Stroke.of(Palette.INK_SOFT, 1));
            pen.words(x, y + 18, number(month), TICK);
        }
        pen.words(MARGIN, y + 18, "months since surgery", SMALL);
        return y + 18;
    }

    private double drawLegend(double y) {
        double x = MARGIN;
        pen.disc(x + 5, y - 4, 4.5, Palette.INK);
        x = legendWords(x + 18, y, "contact, share of the assessable face");
        CourseLane.drawBounds(pen, x + 5, y - 11, y + 3);
        x = legendWords(x + 18, y, "bounds: not assessable counted as none, as contact");
        if (course.lines().stream().flatMap(line -> line.points().stream()).anyMatch(point -> point.truth()
                .isPresent())) {
            CourseLane.drawTruth(pen, x + 6, y - 4);
            x = legendWords(x + 18, y, "truth of the phantom");
        }
        double base = drawParagraph(
                "mm under a point: smallest gap that this scan shows; a narrower one counts as contact", y + 1.5 * ROW);
        return drawParagraph("dashed line: passes over an exam that is not comparable or not stated", base);
    }

    private double legendWords(double x, double y, String text) {
        pen.words(x, y, text, SMALL);
        return x + Lettering.widthPx(text, SMALL.sizePx()) + 4;
    }

    private double drawReasons(double y) {
        double base = y;
        for (String reason : reasons()) {
            base = drawParagraph(reason, base);
        }
        return base;
    }

    private List<String> reasons() {
        List<String> reasons = new ArrayList<>();
        for (CourseLine line : course.lines()) {
            for (int i = 0; i < places.count(); i++) {
                String why = line.points().get(i).why();
                if (!why.isEmpty()) {
                    reasons.add(line.label() + ", " + course.exams().get(i).label() + ": not stated, " + why);
                }
            }
        }
        return reasons;
    }

    private double drawParagraph(String text, double y) {
        double base = y;
        for (String line : Lettering.lines(text, SMALL.sizePx(), TEXT_WIDTH)) {
            pen.words(MARGIN, base, line, SMALL);
            base += ROW;
        }
        return base;
    }

    /** A month without decimals that say nothing; the minus sign is the typographic one. */
    private static String number(double value) {
        String text = value == Math.rint(value)
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.format(Locale.ROOT, "%.1f", value);
        return text.replace('-', '−');
    }

    /** Millimetres to two decimals, or nothing where they are not known. */
    static String millimetres(OptionalDouble value) {
        return value.isEmpty() ? "" : String.format(Locale.ROOT, "%.2f mm", value.getAsDouble());
    }
}
