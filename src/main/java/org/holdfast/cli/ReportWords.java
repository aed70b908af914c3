package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.Caution;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.FilmResult;
import org.holdfast.app.SimulationTruth;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability.Difference;

/** A contact report in words: a table, then what a person should know. */
final class ReportWords {

    private static final String NOT_STATED = "-";
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
        lines.add("Interface contact by threshold, construct "
                + report.construct().id() + ", version " + report.construct().version());
        lines.add("");
        TextTable table = new TextTable(header(!truth.isEmpty()));
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                table.add(row(exam, part, truth));
            }
        }
        lines.addAll(table.lines());
        lines.add("");
        lines.addAll(legend(!truth.isEmpty()));
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

    private static List<String> header(boolean withTruth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "interface",
                "contact\n%",
                "bounds\n%",
                "unseen\ngap, mm",
                "at -50/+50\nHU, %",
                "bridged\n%",
                "hidden\n%",
                "bone/host\nHU"));
        if (withTruth) {
            header.add("truth:\ntouching %");
            header.add("under\nunseen gap %");
        }
        return header;
    }

    private static List<String> legend(boolean withTruth) {
        List<String> lines = new ArrayList<>();
        lines.add(wrapped(
                "contact: of the assessable face; bounds: of the whole face, what is hidden counted as open and as"
                        + " contact; unseen gap: a narrower gap reads as contact (?: hinges on the blur of the scan); hidden: not"
                        + " assessable."));
        if (withTruth) {
            lines.add(
                    wrapped("truth: of the simulation; touching: bone on the implant; under unseen gap: what this scan"
                            + " should read as contact."));
        }
        return lines;
    }

    private static List<String> row(ExamResult exam, InterfaceExam part, SimulationTruth truth) {
        List<String> row = new ArrayList<>();
        row.add(exam.label());
        row.add(
                exam.daysSinceSurgery().isPresent()
                        ? String.valueOf(exam.daysSinceSurgery().getAsInt())
                        : "?");
        row.add(part.face().label());
        if (part.contact().isPresent()) {
            ThresholdContact c = part.contact().get();
            row.add(percent(c.fraction()));
            row.add(c.statedLow().value().isPresent() ? percent(c.low()) + "–" + percent(c.high()) : NOT_STATED);
            row.add(decimals(c.smallestVisibleGapMm().value(), 2)
                    + (c.smallestVisibleGapMm().value().isPresent() && !c.isLimitSettled() ? " ?" : ""));
            row.add(percent(c.sensitivity().get(-50)) + "/"
                    + percent(c.sensitivity().get(50)));
            row.add(percent(c.bridged()));
            row.add(percent(c.notAssessable()));
            row.add(String.format(Locale.ROOT, "%.0f", c.boneHu()) + "/"
                    + decimals(c.hostHu().value(), 0));
        } else {
            row.addAll(List.of(NOT_STATED, "", "", "", "", "", ""));
        }
        if (!truth.isEmpty()) {
            row.add(percent(truth.touchingFraction(exam.label(), part.face().id())));
            OptionalDouble limit =
                    part.contact().map(c -> c.smallestVisibleGapMm().value()).orElse(OptionalDouble.empty());
            row.add(
                    limit.isPresent()
                            ? percent(truth.fractionUnder(
                                    exam.label(), part.face().id(), limit.getAsDouble()))
                            : NOT_STATED);
        }
        return row;
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
        }
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

    private static String percent(Stated value) {
        return value.value().isPresent() ? percent(value.value().getAsDouble()) : NOT_STATED;
    }

    private static String percent(OptionalDouble fraction) {
        return fraction.isPresent() ? percent(fraction.getAsDouble()) : "";
    }

    private static String percent(double fraction) {
        return String.format(Locale.ROOT, "%.1f", 100 * fraction);
    }

    private static String decimals(OptionalDouble value, int digits) {
        return value.isPresent() ? String.format(Locale.ROOT, "%." + digits + "f", value.getAsDouble()) : NOT_STATED;
    }
}
