package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.app.Caution;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.SimulationTruth;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability.Difference;

/** A contact report in words: a table, then what a person should know. */
final class ContactWords {

    private static final String NOT_STATED = "not stated";

    private ContactWords() {}

    /**
     * The lines to print.
     *
     * @param truth what is true, of a simulation
     */
    static List<String> lines(ContactReport report, SimulationTruth truth) {
        List<String> lines = new ArrayList<>();
        lines.add("Interface contact by threshold, construct "
                + report.construct().id() + ", version " + report.construct().version()
                + " (fractions of the assessable face; bounds of the whole face)");
        lines.add("");
        boolean withTruth = !truth.isEmpty();
        TextTable table = new TextTable(header(withTruth));
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                table.add(row(exam, part, truth, withTruth));
            }
        }
        lines.addAll(table.lines());
        lines.add("");
        lines.addAll(reasons(report));
        lines.addAll(notes(report));
        lines.add("");
        lines.add(Wrapping.wrap(Caution.APPARENT_CONTACT, 100));
        lines.add("");
        lines.add(Wrapping.wrap(Caution.TEXT, 100));
        return lines;
    }

    private static List<String> header(boolean withTruth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "interface",
                "contact %",
                "bounds %",
                "unseen gap mm",
                "at -50/+50 HU %",
                "bridged %",
                "not assess. %",
                "bone/host HU"));
        if (withTruth) {
            header.add("truth: touching %");
            header.add("truth: under unseen gap %");
        }
        return header;
    }

    private static List<String> row(ExamResult exam, InterfaceExam part, SimulationTruth truth, boolean withTruth) {
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
            row.add(percent(c.low()) + "–" + percent(c.high()));
            row.add(
                    c.smallestVisibleGapMm().value().isPresent()
                            ? "under " + decimals(c.smallestVisibleGapMm().value(), 2)
                                    + (c.isLimitSettled() ? "" : " ?")
                            : NOT_STATED);
            row.add(percent(c.sensitivity().get(-50)) + " / "
                    + percent(c.sensitivity().get(50)));
            row.add(percent(c.bridged()));
            row.add(percent(c.notAssessable()));
            row.add(String.format(Locale.ROOT, "%.0f", c.boneHu()) + " / "
                    + decimals(c.hostHu().value(), 0));
        } else {
            row.addAll(List.of(NOT_STATED, "", "", "", "", "", ""));
        }
        if (withTruth) {
            row.add(percent(truth.touchingFraction(exam.label(), part.face().id())));
            OptionalDouble limit =
                    part.contact().map(c -> c.smallestVisibleGapMm().value()).orElse(OptionalDouble.empty());
            row.add(
                    limit.isPresent()
                            ? percent(truth.fractionUnder(
                                    exam.label(), part.face().id(), limit.getAsDouble()))
                            : "");
        }
        return row;
    }

    /** Why a number is not stated or limited, one line a part and exam. */
    private static List<String> reasons(ContactReport report) {
        List<String> lines = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                if (!part.verdict().causes().isEmpty()) {
                    lines.add(Wrapping.wrap(
                            exam.label() + ", " + part.face().label() + ": "
                                    + part.verdict().value().words() + ": "
                                    + String.join("; ", part.verdict().causes()),
                            100));
                }
            }
        }
        return lines;
    }

    private static List<String> notes(ContactReport report) {
        List<String> lines = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            List<String> unknown = new ArrayList<>();
            for (Difference difference : exam.comparability()) {
                if (difference.isUnknown()) {
                    unknown.add(difference.field());
                } else {
                    lines.add(Wrapping.wrap(exam.label() + ": " + difference.sentence(), 100));
                }
            }
            if (!unknown.isEmpty()) {
                lines.add(Wrapping.wrap(
                        exam.label() + ": whether these are as on the reference exam is not known: "
                                + String.join(", ", unknown) + ".",
                        100));
            }
            for (Finding finding : exam.findings()) {
                lines.add(Wrapping.wrap(exam.label() + ": " + finding.text(), 100));
            }
        }
        for (Finding finding : report.findings()) {
            String grave = finding.severity() == Severity.ERROR ? "Not read: " : "";
            lines.add(Wrapping.wrap(grave + finding.text(), 100));
        }
        return lines;
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
