package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.holdfast.app.Caution;
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
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.Verdict;
import org.holdfast.volume.Comparability.Difference;

/**
 * Everything behind the number of a part in an exam, for the panel at the side. Immutable.
 *
 * @param verdict what can be asked of it, in a word; empty where nothing was measured
 * @param causes why not more
 * @param sections how the numbers were made, one table each
 * @param caution standing text that goes with them
 * @param scan what is special about this exam, a sentence each
 */
public record PartDetail(
        String verdict, List<String> causes, List<Section> sections, Optional<String> caution, List<String> scan) {

    /**
     * One table.
     *
     * @param title what it is about
     * @param rows its lines
     */
    public record Section(String title, List<Row> rows) {

        public Section {
            rows = List.copyOf(rows);
        }
    }

    /**
     * One line of a table.
     *
     * @param name what
     * @param value how much
     * @param why more about it, in a sentence; may be empty
     */
    public record Row(String name, String value, String why) {}

    /** What the files let one assume of the pose; said no more once it was found. */
    private static final String POSE_ASSUMED = "POSE_ASSUMED";

    public PartDetail {
        causes = List.copyOf(causes);
        sections = List.copyOf(sections);
        scan = List.copyOf(scan);
    }

    /** What is behind the number of a part in an exam. */
    public static PartDetail of(
            ConstructPart part, ReviewExam exam, Known known, Optional<ExamFacts> facts, SimulationTruth truth) {
        Optional<ExamResult> result = known.report().flatMap(report -> report.exam(exam.label()));
        List<Finding> byFiles = facts.map(ExamFacts::findings).orElse(List.of());
        if (result.isEmpty()) {
            return new PartDetail("", List.of(), List.of(), Optional.empty(), words(byFiles));
        }
        List<String> scan = scan(result.get(), byFiles);
        ContactReport report = known.report().orElseThrow();
        Optional<InterfaceExam> face = known.of(exam.label(), part.id());
        if (face.isPresent()) {
            return of(
                    face.get().verdict(),
                    FaceDetail.of(face.get(), exam, report, truth),
                    Caution.APPARENT_CONTACT,
                    scan);
        }
        Optional<ComponentExam> component = known.component(exam.label(), part.id());
        if (component.isPresent()) {
            String caution = ComponentDetail.caution(component.get().component().kind());
            return of(
                    component.get().verdict(),
                    ComponentDetail.of(component.get(), report.settings(), report.construct()),
                    caution,
                    scan);
        }
        return new PartDetail("", List.of(), List.of(), Optional.empty(), scan);
    }

    private static PartDetail of(Verdict verdict, List<Section> sections, String caution, List<String> scan) {
        return new PartDetail(verdict.value().words(), verdict.causes(), sections, Optional.of(caution), scan);
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
                + blurSource(spread) + ".");
        List<Finding> findings = new ArrayList<>(result.findings());
        boolean isRegistered = result.poseKind() == PoseKind.REGISTERED;
        byFiles.stream()
                .filter(finding -> !isRegistered || !finding.code().equals(POSE_ASSUMED))
                .forEach(findings::add);
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

    private static String blurSource(PointSpreadEstimate spread) {
        return switch (spread.source()) {
            case GIVEN -> "given";
            case IMPLANT_EDGES ->
                "measured on " + (spread.note().isEmpty() ? "the implant's edges" : spread.note())
                        + (spread.seMm().value().isPresent()
                                ? ", SE " + Words.quantity(spread.seMm().value().getAsDouble(), 3, "mm")
                                : "");
            case KERNEL_AND_THICKNESS_DEFAULT -> "by kernel and slice thickness, not measured";
        };
    }
}
