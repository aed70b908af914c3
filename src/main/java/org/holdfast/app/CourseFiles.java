package org.holdfast.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
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
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.Comparability.Effect;

/**
 * A contact report as files: {@code course.csv}, {@code course.png} and {@code course.svg}, face-on maps, and the whole
 * result as {@code results/contact.json}.
 */
public final class CourseFiles {

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
     * Writes all files.
     *
     * @param folder an existing folder
     * @return the files written, in the order in which a person would open them
     * @throws UseCaseException if a file cannot be written
     */
    public List<Path> write(Path folder) throws UseCaseException {
        List<Path> written = new ArrayList<>();
        try {
            Path results = Files.createDirectories(folder.resolve("results"));
            Path maps = Files.createDirectories(results.resolve("maps"));
            Path csv = folder.resolve("course.csv");
            new CourseCsv(Software.running().toString(), Caution.TEXT).write(rows(), csv);
            written.add(csv);
            written.addAll(writeChart(folder));
            Set<String> names = new HashSet<>();
            for (ExamResult exam : report.exams()) {
                for (InterfaceExam part : exam.parts()) {
                    if (part.contact().isPresent()) {
                        String name = free(fileName(part.face().id() + " " + exam.label()), names);
                        written.add(FaceMapFile.write(report, exam, part, maps.resolve(name + ".png")));
                    }
                }
            }
            written.addAll(writeResults(results));
        } catch (IOException e) {
            throw new UseCaseException(folder + ": results cannot be written: " + FileFailure.words(e), e);
        }
        return written;
    }

    /** The two documents that belong together: whole or not at all, the one that is looked for last. */
    private List<Path> writeResults(Path results) throws IOException, UseCaseException {
        Path contact = results.resolve(StoredCourse.CONTACT);
        Path samples = results.resolve(StoredCourse.SAMPLES);
        Path newContact = results.resolve(StoredCourse.CONTACT + ".new");
        Path newSamples = results.resolve(StoredCourse.SAMPLES + ".new");
        Files.writeString(newContact, new ContactDocument().write(report), StandardCharsets.UTF_8);
        Files.writeString(
                newSamples, SamplesDocument.write(report, StoredCourse.sha256(newContact)), StandardCharsets.UTF_8);
        Files.move(newSamples, samples, StandardCopyOption.REPLACE_EXISTING);
        Files.move(newContact, contact, StandardCopyOption.REPLACE_EXISTING);
        return List.of(contact, samples);
    }

    /** The chart has an axis of time: without a dated exam there is none, and one of an earlier run goes. */
    private List<Path> writeChart(Path folder) throws IOException {
        Path png = folder.resolve("course.png");
        Path svg = folder.resolve("course.svg");
        if (report.exams().stream().allMatch(e -> e.daysSinceSurgery().isEmpty())) {
            Files.deleteIfExists(png);
            Files.deleteIfExists(svg);
            return List.of();
        }
        Drawing chart = CourseChart.draw(course());
        PngWriter.write(chart, PIXELS_PER_UNIT, png);
        SvgWriter.write(chart, svg);
        return List.of(png, svg);
    }

    private List<CourseRow> rows() {
        List<CourseRow> rows = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                rows.add(row(exam, part));
            }
        }
        return rows;
    }

    private CourseRow row(ExamResult exam, InterfaceExam part) {
        Stated days = exam.daysSinceSurgery().isPresent()
                ? Stated.of(exam.daysSinceSurgery().getAsInt())
                : Stated.not("undated");
        Stated none = Stated.not(NO_CONTACT);
        OptionalDouble trueFraction = truthOf(exam, part);
        Stated truthStated = trueFraction.isPresent() ? Stated.of(trueFraction.getAsDouble()) : Stated.not(NO_TRUTH);
        String causes = String.join("; ", part.verdict().causes());
        String verdict = part.verdict().value().words();
        if (part.contact().isEmpty()) {
            return new CourseRow(
                    exam.label(),
                    days,
                    part.face().label(),
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
                    verdict,
                    causes,
                    truthStated);
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
                verdict,
                causes,
                truthStated);
    }

    private Course course() {
        List<ExamResult> dated = report.exams().stream()
                .filter(e -> e.daysSinceSurgery().isPresent())
                .toList();
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
                "apparent contact by threshold; fraction of the assessable face, bars from all hidden open to all hidden"
                        + " contact" + leftOut(),
                exams,
                lines,
                Caution.TEXT);
    }

    private String leftOut() {
        List<String> undated = report.exams().stream()
                .filter(e -> e.daysSinceSurgery().isEmpty())
                .map(ExamResult::label)
                .toList();
        return undated.isEmpty() ? "" : "; undated and left out: " + String.join(", ", undated);
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
        if (part.contact().isEmpty() || part.contact().get().fraction().value().isEmpty()) {
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

    /** The name, with a number where it is taken: labels of two exams may differ in a sign only, or not at all. */
    private static String free(String name, Set<String> taken) {
        String found = name;
        for (int n = 2; !taken.add(found); n++) {
            found = name + "-" + n;
        }
        return found;
    }

    /** A file name out of words: lower case letters, digits and hyphens. */
    private static String fileName(String words) {
        return words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
    }
}
