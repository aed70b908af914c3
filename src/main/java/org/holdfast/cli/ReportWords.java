package org.holdfast.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.Caution;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.FilmResult;
import org.holdfast.app.LucencyAccuracy;
import org.holdfast.app.SimulationTruth;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Migration;
import org.holdfast.volume.Comparability.Difference;

/** A report in words: tables, then what a person should know. */
final class ReportWords {

    private static final String FIT_LEGEND = "Contact: gaps under the settings' limit with bone behind them, of the"
            + " assessable face; bounds: of the whole face, what is hidden counted as open and as contact; unseen gap: a"
            + " narrower gap is not told from contact; hidden: not assessable. Where contact by fit is stated it is the"
            + " headline.";
    private static final String THRESHOLD_LEGEND = "Contact: of the assessable face; bounds: of the whole face, what is"
            + " hidden counted as open and as contact; unseen gap: a narrower gap reads as contact (?: hinges on the blur"
            + " of the scan); hidden: not assessable.";
    private static final String TRUTH_LEGEND = "Truth: of the simulation; touching: bone on the implant; under a gap:"
            + " what the estimator should read as contact.";
    private static final String CHANGE_LEGEND = "Of the face, against the reference exam, for course and not for state;"
            + " pores filled: exploratory, without any clinical threshold.";
    private static final String ZONE_LEGEND = "Mean: largest mean width round the screw; widest: over 60° × 5 mm; new:"
            + " over the rule's limit and wider than on the reference exam by more than its error; hidden: not assessable. "
            + sentence(LucencyAccuracy.PUBLISHED.words());
    private static final String BREAK_LEGEND = "Width along the axis, and where, from the part's first point (head of a"
            + " screw). A break narrower than stated, or under a joint, is not seen; unconfirmed: seen only where artefact"
            + " reduction may have drawn it. Bend: its change since the reference exam.";
    private static final String MOTION_LEGEND = "Along the construct's axes, against the bone; into bone: subsidence"
            + " positive. Beyond error: beyond what double examinations of phantoms scatter, a lower bound for patients.";
    private static final int COLUMNS = 100;
    /** Scatter under half-voxel shifts from which it is told: the half-width of the goal for contact, 3 points. */
    private static final double JITTER_TOLD = 0.03;

    private ReportWords() {}

    /**
     * The lines to print.
     *
     * @param truth what is true, of a simulation
     */
    static List<String> lines(ContactReport report, SimulationTruth truth) {
        List<String> lines = new ArrayList<>();
        lines.add("Construct " + report.construct().id() + ", version "
                + report.construct().version() + ", settings "
                + report.settings().preset().word());
        section(lines, "Interface contact by fit", ContactTables.byFit(report, truth), FIT_LEGEND);
        section(lines, "Interface contact by threshold", ContactTables.byThreshold(report, truth), THRESHOLD_LEGEND);
        if (!truth.isEmpty()) {
            lines.add(wrapped(TRUTH_LEGEND));
        }
        section(lines, "Change of mineral beside the implant", ContactTables.change(report), CHANGE_LEGEND);
        section(lines, "Zones round screws", ComponentTables.zones(report, truth), ZONE_LEGEND);
        section(lines, "Breaks of screws and rods", ComponentTables.breaks(report, truth), BREAK_LEGEND);
        section(lines, "Migration since the reference exam", ComponentTables.migration(report, truth), MOTION_LEGEND);
        for (ExamResult exam : report.exams()) {
            List<String> notes = notes(exam);
            if (!notes.isEmpty()) {
                lines.add("");
                lines.add(exam.label() + ":");
                notes.forEach(note -> lines.add(bullet(note)));
            }
        }
        for (FilmResult film : report.films()) {
            List<String> warnings = film.findings().stream()
                    .filter(finding -> finding.severity() != Severity.INFO)
                    .map(finding -> bullet(words(finding, film.label())))
                    .toList();
            if (!warnings.isEmpty()) {
                lines.add("");
                lines.add(film.label() + ":");
                lines.addAll(warnings);
            }
        }
        if (!report.findings().isEmpty()) {
            lines.add("");
            report.findings().forEach(finding -> lines.add(wrapped(words(finding, ""))));
        }
        lines.add("");
        lines.add(wrapped(Caution.APPARENT_CONTACT));
        return lines;
    }

    private static String sentence(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1) + ".";
    }

    private static void section(List<String> lines, String title, List<String> table, String legend) {
        if (!table.isEmpty()) {
            lines.add("");
            lines.add(title);
            lines.add("");
            lines.addAll(table);
            lines.add("");
            lines.add(wrapped(legend));
        }
    }

    /** What limits the numbers of an exam: verdicts, differences from the reference exam, findings that limit something. */
    private static List<String> notes(ExamResult exam) {
        List<String> notes = new ArrayList<>();
        for (InterfaceExam part : exam.parts()) {
            if (!part.verdict().causes().isEmpty()) {
                notes.add(part.face().label() + ": " + part.verdict().value().words() + ": "
                        + String.join("; ", part.verdict().causes()));
            }
            jitter(part).ifPresent(notes::add);
            if (!exam.isReference()
                    && part.contact().isPresent()
                    && part.change().value().isEmpty()) {
                notes.add(part.face().label() + ": change of mineral not stated: "
                        + part.change().why());
            }
        }
        componentNotes(exam, notes);
        List<String> unknown = new ArrayList<>();
        for (Difference difference : exam.comparability()) {
            if (difference.isUnknown()) {
                unknown.add(difference.name().toLowerCase(Locale.ROOT));
            } else {
                notes.add(difference.sentence());
            }
        }
        if (!unknown.isEmpty()) {
            notes.add("Not known whether as on the reference exam: " + String.join(", ", unknown) + ".");
        }
        exam.findings().stream()
                .filter(finding -> finding.severity() != Severity.INFO)
                .forEach(finding -> notes.add(words(finding, exam.label())));
        return notes;
    }

    /** Verdicts that limit components; one that several share is told once. */
    private static void componentNotes(ExamResult exam, List<String> notes) {
        Map<String, List<String>> byCause = new LinkedHashMap<>();
        for (ComponentExam part : exam.components()) {
            part.verdict().causes().forEach(cause -> byCause.computeIfAbsent(
                            part.verdict().value().words() + ": " + cause, c -> new ArrayList<>())
                    .add(part.component().label()));
            part.continuity()
                    .value()
                    .map(Continuity::caution)
                    .filter(caution -> !caution.isEmpty())
                    .ifPresent(caution -> byCause.computeIfAbsent(caution, c -> new ArrayList<>())
                            .add(part.component().label()));
            for (Migration each : part.migration()) {
                each.motion().value().stream()
                        .flatMap(motion -> motion.grades().stream())
                        .forEach(grade -> byCause.computeIfAbsent(grade.inWords(), c -> new ArrayList<>())
                                .add(part.component().label()));
                if (each.motion().value().isEmpty() && !exam.isReference()) {
                    byCause.computeIfAbsent(
                                    "migration not stated: " + each.motion().why(), c -> new ArrayList<>())
                            .add(part.component().label());
                }
            }
        }
        byCause.forEach((cause, parts) -> {
            List<String> each = parts.stream().distinct().toList();
            boolean isAll = each.size() > 2 && each.size() == exam.components().size();
            notes.add((isAll ? "All components" : String.join(", ", each)) + ": " + cause);
        });
    }

    /** A finding with its place, unless it names that itself or stands under the exam that it is about. */
    private static String words(Finding finding, String label) {
        boolean isSaid = finding.where().equals(label) || finding.text().startsWith(finding.where());
        return finding.text() + (isSaid ? "" : " [" + finding.where() + "]");
    }

    /** How much hangs on the exact pose; empty where the fraction hardly does. */
    private static Optional<String> jitter(InterfaceExam part) {
        OptionalDouble sd = part.contact().map(c -> c.jitterSd().value()).orElse(OptionalDouble.empty());
        return sd.isPresent() && sd.getAsDouble() > JITTER_TOLD
                ? Optional.of(String.format(
                        Locale.ROOT,
                        "%s: shifts of the face by half a voxel scatter the fraction by %.0f points (SD): it is only as"
                                + " exact as the pose.",
                        part.face().label(),
                        100 * sd.getAsDouble()))
                : Optional.empty();
    }

    private static String bullet(String note) {
        return "- " + Wrapping.wrap(note, COLUMNS - 2).replace(System.lineSeparator(), System.lineSeparator() + "  ");
    }

    private static String wrapped(String paragraph) {
        return Wrapping.wrap(paragraph, COLUMNS);
    }
}
