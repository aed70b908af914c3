package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.holdfast.app.InspectionReport;
import org.holdfast.app.InspectionReport.FileEntry;
import org.holdfast.app.InspectionReport.HuEntry;
import org.holdfast.app.InspectionReport.SeriesEntry;
import org.holdfast.app.InspectionReport.StackEntry;
import org.holdfast.finding.Finding;

/** An inspection in words, a line each. */
final class InspectionWords {

    private InspectionWords() {}

    static List<String> lines(InspectionReport report) {
        List<String> out = new ArrayList<>();
        for (SeriesEntry series : report.series()) {
            describe(series, out);
        }
        report.findings().forEach(finding -> out.add(line("", finding)));
        if (!report.unreadable().isEmpty()) {
            out.add("Not read:");
            report.unreadable().forEach(u -> out.add("  " + u.path() + ": " + u.reason()));
        }
        return out;
    }

    private static void describe(SeriesEntry series, List<String> out) {
        String uid = series.seriesInstanceUid().isEmpty() ? "without UID" : series.seriesInstanceUid();
        String description = series.description().isEmpty() ? "" : ", \"" + series.description() + "\"";
        String modality = series.modality().isEmpty() ? "modality not said" : series.modality();
        out.add("Series " + uid + ": " + modality + ", " + series.kind() + description);
        for (StackEntry stack : series.stacks()) {
            out.add("  " + geometry(stack));
            out.add("    " + (stack.hu() == null ? "no HU: " + stack.huWhy() : hu(stack.hu())));
        }
        series.findings().forEach(finding -> out.add(line("  ", finding)));
        if (series.files() != null) {
            series.files().forEach(file -> out.add("  " + words(file)));
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
        return f.path() + ": " + stored + "; " + scale + (f.lossy() ? "; compressed with loss" : "");
    }

    private static String line(String indent, Finding f) {
        String mark = f.severity().name().toLowerCase(Locale.ROOT);
        return indent + mark + " " + f.code() + ": " + f.text() + (f.where().isEmpty() ? "" : " [" + f.where() + "]");
    }
}
