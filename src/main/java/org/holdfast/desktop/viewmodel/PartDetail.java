package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamResult;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.SimulationTruth;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability.Difference;

/**
 * Everything behind the number of a part in an exam, for the panel at the side. Immutable.
 *
 * @param verdict what can be asked of it, in a word; empty where nothing was measured
 * @param causes why not more
 * @param number how the number was made, line by line
 * @param scan what is special about this exam, a sentence each
 */
public record PartDetail(String verdict, List<String> causes, List<Row> number, List<String> scan) {

    /**
     * One line of a table.
     *
     * @param name what
     * @param value how much
     * @param why more about it, in a sentence; may be empty
     */
    public record Row(String name, String value, String why) {}

    private static final String NOT_STATED = "not stated";

    public PartDetail {
        causes = List.copyOf(causes);
        number = List.copyOf(number);
        scan = List.copyOf(scan);
    }

    /** What is behind the number of a part in an exam. */
    public static PartDetail of(
            ConstructPart part, ReviewExam exam, Known known, Optional<ExamFacts> facts, SimulationTruth truth) {
        Optional<ExamResult> result = known.report().flatMap(report -> report.exam(exam.label()));
        List<Finding> byFiles = facts.map(ExamFacts::findings).orElse(List.of());
        if (result.isEmpty()) {
            return new PartDetail("", List.of(), List.of(), words(byFiles));
        }
        List<String> scan = scan(result.get(), byFiles);
        Optional<InterfaceExam> measured = known.of(exam.label(), part.id());
        if (measured.isEmpty()) {
            return new PartDetail("", List.of(), List.of(), scan);
        }
        ContactReport report = known.report().orElseThrow();
        List<Row> rows = measured.get().contact().map(c -> rows(c, report)).orElse(List.of());
        List<Row> all = new ArrayList<>(rows);
        all.addAll(truthRows(exam, part, measured.get(), truth));
        return new PartDetail(
                measured.get().verdict().value().words(),
                measured.get().verdict().causes(),
                all,
                scan);
    }

    private static List<Row> rows(ThresholdContact c, ContactReport report) {
        List<Row> rows = new ArrayList<>();
        String bounds = " (" + Words.percentRange(c.low(), c.high()) + ")";
        rows.add(row("By threshold", c.fraction(), value -> Words.percent(value) + bounds));
        rows.add(row("Opposite host bone", c.ofOppositeBone(), Words::percent));
        rows.add(row("Bridged", c.bridged(), Words::percent));
        rows.add(new Row("Cannot tell", Words.percent(c.notAssessable()), obstacles(c)));
        rows.add(row("Smallest visible gap", c.smallestVisibleGapMm(), gap -> Words.quantity(gap, 2, "mm")));
        rows.add(new Row("Bone ± 50 HU", shifted(c, 50), "the number with the bone threshold 50 HU higher and lower"));
        rows.add(new Row("Bone ± 100 HU", shifted(c, 100), "the same with 100 HU"));
        rows.add(row("Pose jitter, SD", c.jitterSd(), sd -> Words.quantity(100 * sd, 1, "points")));
        rows.add(new Row(
                "Bone from",
                Words.quantity(c.boneHu(), 0, "HU") + ", guard " + Words.quantity(c.guardMm(), 1, "mm"),
                c.boneRule()));
        rows.add(row("Host bone", c.hostHu(), hu -> Words.quantity(hu, 0, "HU")));
        rows.add(row("Noise, SD", c.noiseSdHu(), hu -> Words.quantity(hu, 0, "HU")));
        rows.add(gaps(c));
        rows.add(new Row("Face", Words.quantity(c.areaMm2(), 0, "mm²"), ""));
        rows.add(new Row(
                "Construct",
                report.construct().id() + ", version " + report.construct().version(),
                ""));
        return rows;
    }

    private interface Format {
        String of(double value);
    }

    private static Row row(String name, Stated stated, Format format) {
        return stated.value().isPresent()
                ? new Row(name, format.of(stated.value().getAsDouble()), "")
                : new Row(name, NOT_STATED, stated.why());
    }

    private static Row gaps(ThresholdContact c) {
        OptionalDouble median = c.gapMm().median();
        OptionalDouble p90 = c.gapMm().p90();
        String value = median.isPresent() && p90.isPresent()
                ? Words.number(median.getAsDouble(), 1) + ", " + Words.quantity(p90.getAsDouble(), 1, "mm")
                : "no gap seen";
        return new Row("Gaps, median, 90th", value, "where bone was found at a distance");
    }

    private static String shifted(ThresholdContact c, int hu) {
        Stated lower = c.sensitivity().get(-hu);
        Stated higher = c.sensitivity().get(hu);
        if (lower == null
                || higher == null
                || lower.value().isEmpty()
                || higher.value().isEmpty()) {
            return NOT_STATED;
        }
        return Words.percentRange(higher.value().getAsDouble(), lower.value().getAsDouble()) + '\u2009' + '%';
    }

    private static String obstacles(ThresholdContact c) {
        return c.obstacles().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(e -> Words.percent(e.getValue()) + " " + e.getKey().words())
                .collect(Collectors.joining("; "));
    }

    private static List<Row> truthRows(
            ReviewExam exam, ConstructPart part, InterfaceExam measured, SimulationTruth truth) {
        OptionalDouble touching = truth.touchingFraction(exam.label(), part.id());
        if (touching.isEmpty()) {
            return List.of();
        }
        List<Row> rows = new ArrayList<>();
        rows.add(new Row(
                "Simulated truth",
                Words.percent(touching.getAsDouble()) + " touching",
                "known because it is invented"));
        OptionalDouble gap =
                measured.contact().map(c -> c.smallestVisibleGapMm().value()).orElse(OptionalDouble.empty());
        if (gap.isPresent()) {
            OptionalDouble under = truth.fractionUnder(exam.label(), part.id(), gap.getAsDouble());
            rows.add(new Row(
                    "under the unseen gap",
                    Words.percent(under.orElseThrow()),
                    "what a scan with this limit should read as contact"));
        }
        return rows;
    }

    private static List<String> words(List<Finding> findings) {
        return findings.stream()
                .filter(finding -> finding.severity() != Severity.INFO)
                .map(Finding::text)
                .map(Words::sentence)
                .distinct()
                .toList();
    }

    private static List<String> scan(ExamResult result, List<Finding> byFiles) {
        List<String> sentences = new ArrayList<>();
        for (Difference difference : result.comparability()) {
            if (!difference.isUnknown()) {
                sentences.add(difference.sentence());
            }
        }
        PointSpreadEstimate spread = result.pointSpread();
        sentences.add("Blur (SD): " + Words.number(spread.sigmaInPlaneMm(), 2) + " in the slice, "
                + Words.quantity(spread.sigmaAlongTableMm(), 2, "mm") + " along the table, "
                + (spread.source() == PointSpreadEstimate.Source.GIVEN
                        ? "given."
                        : "by kernel and slice thickness, not measured."));
        sentences.add("Pose: " + result.poseSource() + ".");
        List<Finding> findings = new ArrayList<>(result.findings());
        findings.addAll(byFiles);
        sentences.addAll(words(findings));
        String unknown = result.comparability().stream()
                .filter(Difference::isUnknown)
                .map(d -> d.name().toLowerCase(Locale.ROOT))
                .collect(Collectors.joining(", "));
        if (!unknown.isEmpty()) {
            sentences.add("Not known whether as on the reference exam: " + unknown + ".");
        }
        return sentences;
    }
}
