package org.holdfast.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.construct.BoneInterface;
import org.holdfast.exchange.CourseCsv;
import org.holdfast.exchange.CourseRow;
import org.holdfast.figure.Course;
import org.holdfast.figure.CourseChart;
import org.holdfast.figure.CourseExam;
import org.holdfast.figure.CourseLine;
import org.holdfast.figure.CoursePoint;
import org.holdfast.figure.Drawing;
import org.holdfast.figure.PngWriter;
import org.holdfast.figure.SvgWriter;
import org.holdfast.finding.FileFailure;
import org.holdfast.measure.Answer;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.Comparability.Effect;

/**
 * A contact report as files: {@code course.csv}, {@code course.png} and {@code course.svg}, face-on maps, and the whole
 * result as {@code results/measure.json}.
 */
public final class CourseFiles {

    private static final String CHART = "course";
    private static final String MEASURE = StoredCourse.FOLDER + "/" + StoredCourse.MEASURE;
    private static final double PIXELS_PER_UNIT = 2;
    private static final String NO_TRUTH = "not a simulation";
    private static final String NO_CONTACT = "not measured";

    private final ContactReport report;
    private final SimulationTruth truth;

    /**
     * @param report what was measured
     * @param truth what is true, of a simulation
     */
    public CourseFiles(ContactReport report, SimulationTruth truth) {
        this.report = report;
        this.truth = truth;
    }

    /**
     * Writes all files; what an earlier run left stays as it was until all are written.
     *
     * @param folder an existing folder
     * @return the files written, in the order in which a person would open them
     * @throws UseCaseException if a file cannot be written
     */
    public List<Path> write(Path folder) throws UseCaseException {
        try (NewFiles files = new NewFiles(folder)) {
            Path csv = files.path("course.csv");
            new CourseCsv(Software.running().toString(), Caution.TEXT).write(rows(), csv);
            Optional<Drawing> chart = chart();
            if (chart.isPresent()) {
                PngWriter.write(chart.get(), PIXELS_PER_UNIT, files.path(CHART + ".png"));
                SvgWriter.write(chart.get(), files.path(CHART + ".svg"));
            }
            new MapFiles(report).write(name -> files.path(StoredCourse.FOLDER + "/maps/" + name));
            writeResults(files);
            List<Path> written = files.move(MEASURE);
            if (chart.isEmpty()) {
                // The chart has an axis of time; one of an earlier run would mislead.
                Files.deleteIfExists(folder.resolve(CHART + ".png"));
                Files.deleteIfExists(folder.resolve(CHART + ".svg"));
            }
            return written;
        } catch (IOException e) {
            throw new UseCaseException(folder + ": results cannot be written: " + FileFailure.words(e), e);
        }
    }

    /** The two documents that belong together. */
    private void writeResults(NewFiles files) throws IOException {
        byte[] measure = new ReportDocument().write(report).getBytes(StandardCharsets.UTF_8);
        Files.write(files.path(MEASURE), measure);
        Files.writeString(
                files.path(StoredCourse.FOLDER + "/" + StoredCourse.SAMPLES),
                SamplesDocument.write(report, StoredCourse.sha256(measure)),
                StandardCharsets.UTF_8);
    }

    private List<CourseRow> rows() {
        List<CourseRow> rows = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                rows.add(row(exam, part));
            }
        }
        for (FilmResult film : report.films()) {
            for (BoneInterface face : report.construct().interfaces()) {
                rows.add(row(film, face));
            }
        }
        return rows;
    }

    private static CourseRow row(FilmResult film, BoneInterface face) {
        OptionalInt days = film.daysSinceSurgery();
        return withoutContact(
                film.label(),
                days.isPresent() ? Stated.of(days.getAsInt()) : Stated.not("undated"),
                face.label(),
                FilmResult.VERDICT,
                Stated.not(NO_TRUTH));
    }

    private static CourseRow withoutContact(
            String exam, Stated days, String face, Verdict verdict, Stated truthStated) {
        Stated none = Stated.not(NO_CONTACT);
        return new CourseRow(
                exam,
                days,
                face,
                none,
                none,
                none,
                none,
                none,
                none,
                none,
                none,
                new CourseRow.Sensitivity(none, none, none, none),
                none,
                CourseRow.ByFit.not(NO_CONTACT),
                verdict.value().words(),
                String.join("; ", verdict.causes()),
                truthStated);
    }

    private CourseRow row(ExamResult exam, InterfaceExam part) {
        Stated days = exam.daysSinceSurgery().isPresent()
                ? Stated.of(exam.daysSinceSurgery().getAsInt())
                : Stated.not("undated");
        OptionalDouble trueFraction = truthOf(exam, part);
        Stated truthStated = trueFraction.isPresent() ? Stated.of(trueFraction.getAsDouble()) : Stated.not(NO_TRUTH);
        String causes = String.join("; ", part.verdict().causes());
        String verdict = part.verdict().value().words();
        if (part.contact().isEmpty()) {
            return withoutContact(exam.label(), days, part.face().label(), part.verdict(), truthStated);
        }
        ThresholdContact c = part.contact().get();
        return new CourseRow(
                exam.label(),
                days,
                part.face().label(),
                c.fraction(),
                c.statedLow(),
                c.statedHigh(),
                c.smallestVisibleGapMm(),
                c.bridged(),
                Stated.of(c.notAssessable()),
                Stated.of(c.boneHu()),
                c.hostHu(),
                new CourseRow.Sensitivity(
                        c.sensitivity().get(-100),
                        c.sensitivity().get(-50),
                        c.sensitivity().get(50),
                        c.sensitivity().get(100)),
                c.jitterSd(),
                byFit(part.byFit()),
                verdict,
                causes,
                truthStated);
    }

    private static CourseRow.ByFit byFit(Answer<FittedContact> answer) {
        return answer.value()
                .map(f -> new CourseRow.ByFit(f.fraction(), f.low(), f.high(), f.smallestVisibleGapMm()))
                .orElseGet(() -> CourseRow.ByFit.not(answer.why()));
    }

    /** The course against time; empty if no exam is dated. */
    Optional<Drawing> chart() {
        boolean isDated =
                report.exams().stream().anyMatch(e -> e.daysSinceSurgery().isPresent());
        return isDated ? Optional.of(CourseChart.draw(course())) : Optional.empty();
    }

    private Course course() {
        List<ExamResult> dated = dated();
        List<CourseExam> exams = new ArrayList<>();
        for (int n = 0; n < dated.size(); n++) {
            ExamResult exam = dated.get(n);
            boolean comparable = Comparability.allowsHuComparison(exam.comparability());
            exams.add(new CourseExam(
                    exam.label(),
                    ExamLabel.monthsSince(exam.daysSinceSurgery().getAsInt()),
                    comparable ? lastComparable(dated, n) : OptionalInt.empty(),
                    comparable ? "" : cause(exam)));
        }
        List<CourseLine> lines = new ArrayList<>();
        for (int face = 0; face < report.construct().interfaces().size(); face++) {
            List<CoursePoint> points = new ArrayList<>();
            for (ExamResult exam : dated) {
                points.add(point(exam, exam.parts().get(face)));
            }
            lines.add(new CourseLine(report.construct().interfaces().get(face).label(), points));
        }
        return new Course(
                "Interface contact, " + report.construct().id(),
                "apparent contact " + estimators()
                        + "; fraction of the assessable face, bars from all hidden open to all" + " hidden contact"
                        + leftOut() + lossy(),
                exams,
                lines,
                Caution.TEXT);
    }

    /** A line has one estimator: by fit where that states every dated exam of the interface, else by threshold. */
    private boolean isByFit(BoneInterface face) {
        return dated().stream().map(exam -> report.of(exam.label(), face.id())).allMatch(part -> part.flatMap(
                        p -> p.byFit().value())
                .filter(f -> f.fraction().value().isPresent()
                        && f.low().value().isPresent()
                        && f.high().value().isPresent())
                .isPresent());
    }

    private String estimators() {
        List<String> fitted = report.construct().interfaces().stream()
                .filter(this::isByFit)
                .map(BoneInterface::label)
                .toList();
        if (fitted.isEmpty()) {
            return "by threshold";
        }
        return fitted.size() == report.construct().interfaces().size()
                ? "by fit"
                : "by fit (" + String.join(", ", fitted) + "), else by threshold";
    }

    private static CoursePoint byFit(FittedContact c) {
        CoursePoint point = CoursePoint.stated(
                c.fraction().value().orElseThrow(),
                c.low().value().orElseThrow(),
                c.high().value().orElseThrow());
        OptionalDouble limit = c.smallestVisibleGapMm().value();
        return limit.isPresent() ? point.withSmallestVisibleGapMm(limit.getAsDouble()) : point;
    }

    private List<ExamResult> dated() {
        return report.exams().stream()
                .filter(e -> e.daysSinceSurgery().isPresent())
                .toList();
    }

    private String leftOut() {
        List<String> undated = report.exams().stream()
                .filter(e -> e.daysSinceSurgery().isEmpty())
                .map(ExamResult::label)
                .toList();
        List<String> films = report.films().stream().map(FilmResult::label).toList();
        return (undated.isEmpty() ? "" : "; undated and left out: " + String.join(", ", undated))
                + (films.isEmpty() ? "" : "; radiographs, not measured: " + String.join(", ", films));
    }

    private String lossy() {
        List<String> lossy = report.exams().stream()
                .filter(ExamResult::isLossy)
                .map(ExamResult::label)
                .toList();
        return lossy.isEmpty() ? "" : "; images compressed with loss: " + String.join(", ", lossy);
    }

    private static OptionalInt lastComparable(List<ExamResult> dated, int exam) {
        for (int n = exam - 1; n >= 0; n--) {
            if (Comparability.allowsHuComparison(dated.get(n).comparability())) {
                return OptionalInt.of(n);
            }
        }
        return OptionalInt.empty();
    }

    private static String cause(ExamResult exam) {
        return exam.comparability().stream()
                .filter(d -> d.effect() == Effect.NO_HU_COMPARISON)
                .map(d -> "other " + d.name().toLowerCase(Locale.ROOT))
                .findFirst()
                .orElse("not comparable");
    }

    private CoursePoint point(ExamResult exam, InterfaceExam part) {
        OptionalDouble trueFraction = truthOf(exam, part);
        CoursePoint point;
        if (isByFit(part.face())) {
            point = byFit(part.byFit().value().orElseThrow());
        } else if (part.contact().isEmpty()
                || part.contact().get().fraction().value().isEmpty()) {
            point = CoursePoint.notStated(
                    part.contact().isEmpty()
                            ? part.verdict().value().words()
                            : part.contact().get().fraction().why());
        } else {
            ThresholdContact c = part.contact().get();
            point = CoursePoint.stated(c.fraction().value().getAsDouble(), c.low(), c.high());
            if (c.smallestVisibleGapMm().value().isPresent()) {
                point = point.withSmallestVisibleGapMm(
                        c.smallestVisibleGapMm().value().getAsDouble());
            }
        }
        return trueFraction.isPresent() ? point.withTruth(trueFraction.getAsDouble()) : point;
    }

    private OptionalDouble truthOf(ExamResult exam, InterfaceExam part) {
        return truth.touchingFraction(exam.label(), part.face().id());
    }
}
