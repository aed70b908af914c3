package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.holdfast.app.InspectionReport;
import org.holdfast.app.InspectionReport.ExamEntry;
import org.holdfast.app.InspectionReport.FileEntry;
import org.holdfast.app.InspectionReport.HuEntry;
import org.holdfast.app.InspectionReport.SeriesEntry;
import org.holdfast.app.InspectionReport.StackEntry;
import org.holdfast.app.InspectionReport.UseEntry;
import org.holdfast.finding.Finding;

/** An inspection in words: the exams and what would be measured in each, then every series. */
final class InspectionWords {

    private static final int COLUMNS = 100;

    private InspectionWords() {}

    static List<String> lines(InspectionReport report) {
        List<String> out = new ArrayList<>();
        report.exams().forEach(exam -> describe(exam, out));
        for (SeriesEntry series : report.series()) {
            describe(series, out);
        }
        report.findings().forEach(finding -> out.add(line("", finding)));
        if (!report.unreadable().isEmpty()) {
            out.add("Not read:");
            report.unreadable().forEach(u -> out.add(Wrapping.behind("  ", u.path() + ": " + u.reason(), COLUMNS)));
        }
        return out;
    }

    private static void describe(ExamEntry exam, List<String> out) {
        String day = exam.date() == null ? "Exam without a date" : "Exam of " + exam.date();
        String source = exam.date() == null ? exam.dateWhy() : "by " + exam.dateSource();
        out.add(Wrapping.behind("", day + ", patient " + exam.patient() + " (" + source + ")", COLUMNS));
        for (UseEntry use : exam.series()) {
            out.add(Wrapping.behind("  ", words(use), COLUMNS));
            out.add(Wrapping.behind("    ", place(use), COLUMNS));
            use.reasons().forEach(reason -> out.add(Wrapping.behind("    - ", reason, COLUMNS)));
        }
        exam.findings().forEach(finding -> out.add(line("  ", finding)));
        out.add("");
    }

    private static String words(UseEntry use) {
        String role =
                switch (use.role()) {
                    case "measure" -> "Measure on";
                    case "confirm" -> "Confirm on";
                    default -> "View";
                };
        String what = use.stack() != null ? " slice" : use.kind().equals("other") ? " object" : " image";
        String description = use.description().isEmpty() ? "" : ", \"" + use.description() + "\"";
        return role + ": " + use.name() + ", " + use.images() + what + (use.images() == 1 ? "" : "s") + description;
    }

    private static String place(UseEntry use) {
        String uid = use.seriesInstanceUid().isEmpty() ? "series without UID" : "series " + use.seriesInstanceUid();
        return uid + (use.stack() == null ? "" : ", stack " + use.stack());
    }

    private static void describe(SeriesEntry series, List<String> out) {
        String uid = series.seriesInstanceUid().isEmpty() ? "without UID" : series.seriesInstanceUid();
        String description = series.description().isEmpty() ? "" : ", \"" + series.description() + "\"";
        String modality = series.modality().isEmpty() ? "modality not said" : series.modality();
        out.add(Wrapping.behind("", "Series " + uid + ": " + modality + ", " + series.kind() + description, COLUMNS));
        for (StackEntry stack : series.stacks()) {
            out.add(Wrapping.behind("  ", geometry(stack), COLUMNS));
            out.add(Wrapping.behind("    ", stack.hu() == null ? "no HU: " + stack.huWhy() : hu(stack.hu()), COLUMNS));
        }
        series.findings().forEach(finding -> out.add(line("  ", finding)));
        if (series.files() != null) {
            series.files().forEach(file -> out.add(Wrapping.behind("  ", words(file), COLUMNS)));
        }
    }

    private static String geometry(StackEntry s) {
        String pitch = s.pitchMm() == null ? s.pitchMmWhy() : String.format(Locale.ROOT, "pitch %.4g mm", s.pitchMm());
        String holes = s.holes().isEmpty()
                ? ""
                : "; slices missing after slice "
                        + s.holes().stream().map(k -> Integer.toString(k + 1)).collect(Collectors.joining(", "));
        return String.format(
                Locale.ROOT,
                "Stack of %d %s, %d rows × %d columns, pixels %.4g × %.4g mm (row, column), %s%s%s%s",
                s.slices(),
                s.slices() == 1 ? "slice" : "slices",
                s.rows(),
                s.columns(),
                s.pixelSpacingMm().get(0),
                s.pixelSpacingMm().get(1),
                pitch,
                s.shearDeg() > 0.1 ? String.format(Locale.ROOT, ", leaning %.2f°", s.shearDeg()) : "",
                s.irregular() ? ", irregular" : "",
                holes);
    }

    private static String hu(HuEntry hu) {
        if (hu.mean() == null) {
            return "HU: " + hu.meanWhy();
        }
        return String.format(
                Locale.ROOT,
                "HU %.0f to %.0f, mean %.4f over %d of %d voxels; %s",
                hu.min(),
                hu.max(),
                hu.mean(),
                hu.validVoxels(),
                hu.totalVoxels(),
                hu.ceiling() == null ? "not clipped" : String.format(Locale.ROOT, "clipped at %.0f HU", hu.ceiling()));
    }

    private static String words(FileEntry f) {
        String stored = f.storedMin() == null
                ? f.storedMinWhy()
                : String.format(
                        Locale.ROOT, "stored %d to %d, mean %.4f", f.storedMin(), f.storedMax(), f.storedMean());
        String scale = f.scale().rowMm() == null
                ? "no scale"
                : String.format(
                        Locale.ROOT,
                        "scale %s %.4g × %.4g mm",
                        f.scale().kind(),
                        f.scale().rowMm(),
                        f.scale().columnMm());
        return f.path() + ": " + stored + "; " + scale
                + (f.lossy() ? "; compressed with loss: " + f.loss().words() : "");
    }

    private static String line(String indent, Finding f) {
        String mark = f.severity().name().toLowerCase(Locale.ROOT);
        String where = f.where().isEmpty() ? "" : " [" + f.where() + "]";
        return Wrapping.behind(indent, mark + " " + f.code() + ": " + f.text() + where, COLUMNS);
    }
}
