package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdfast.app.Deidentification;
import org.holdfast.app.DeidentificationReport;
import org.holdfast.finding.Finding;

/** A de-identification in words, a line each. */
final class DeidentificationWords {

    private static final int COLUMNS = 100;

    private DeidentificationWords() {}

    static List<String> lines(DeidentificationReport report) {
        DeidentificationReport.Files files = report.files();
        List<String> out = new ArrayList<>();
        String counts = String.format(
                Locale.ROOT,
                "%d of %d files written for subject %s, dates %s; left out %d, media directories %d, not written %d.",
                files.written(),
                files.found(),
                report.subject(),
                report.dates(),
                files.leftOut(),
                files.directories(),
                files.notWritten());
        out.add(Wrapping.wrap(counts, COLUMNS));
        out.add("What was done to " + report.attributes().size() + " attributes: " + Deidentification.TABLE + " and "
                + Deidentification.DOCUMENT + " in the new folder.");
        report.findings().forEach(finding -> out.add(Wrapping.behind("", line(finding), COLUMNS)));
        if (!report.filesToLookAt().isEmpty()) {
            out.add("Images to look at before they leave: "
                    + report.filesToLookAt().size() + ", named in " + Deidentification.DOCUMENT + ", such as "
                    + report.filesToLookAt().get(0) + ".");
        }
        out.add("What this cannot see or do:");
        report.limits().forEach(limit -> out.add(Wrapping.behind("  - ", limit, COLUMNS)));
        return out;
    }

    private static String line(Finding f) {
        String mark = f.severity().name().toLowerCase(Locale.ROOT);
        return mark + " " + f.code() + ": " + f.text() + (f.where().isEmpty() ? "" : " [" + f.where() + "]");
    }
}
