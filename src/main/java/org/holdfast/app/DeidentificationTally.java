package org.holdfast.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.holdfast.app.DeidentificationReport.AttributeEntry;
import org.holdfast.finding.Finding;
import org.holdfast.intake.AttributeChange;
import org.holdfast.intake.FindingSummary;

/** Counts what is done to the files of one run. Holds tags, numbers and new names only. Not thread-safe. */
final class DeidentificationTally {

    static final String PROFILE = "DICOM PS3.15 annex E, Basic Application Level Confidentiality Profile";

    /** What this cannot see or do; goes with every table. */
    static final List<String> LIMITS = List.of(
            "Pixels are copied as they are: text that is burned into an image, and a face that can be rendered from the"
                    + " voxels of a head scan, are still there.",
            "The risk of burned-in text is judged from the header alone; an image without that finding may show text all"
                    + " the same. Look at the images before they leave.",
            "Texts and coded words that the measurement needs are kept: manufacturer, model, software version, kernel, filter,"
                    + " image type, body part, codes of published schemes. A name that somebody typed there is still there.",
            "Comments inside the compressed stream of a frame are copied with it.",
            "What is kept may single out a person together with other knowledge: scanner model, body region, times of day,"
                    + " intervals between exams, a rare implant. Whether the files are all of one person cannot be known.",
            "Whoever holds the original images can match the pixels; whoever holds the key file can match UIDs and dates."
                    + " Keep both away from these copies.");

    private static final String CONTENT_SEQUENCE = "(0040,A730)";

    private final Map<AttributeChange, int[]> changes = new TreeMap<>();
    private final List<Finding> findings = new ArrayList<>();
    private final Set<String> toLookAt = new TreeSet<>();
    private int written;
    private int leftOut;

    /** Counts one file that is written. */
    void written(Map<AttributeChange, Integer> ofFile) {
        written++;
        ofFile.forEach((change, places) -> {
            int[] sums = changes.computeIfAbsent(change, key -> new int[2]);
            sums[0]++;
            sums[1] += places;
        });
    }

    /** Counts one file that could be read and is not written, and says why. */
    void leftOut(Finding why) {
        leftOut++;
        findings.add(why);
    }

    /** Notes a written image that a person should look at, with the reason. */
    void lookAt(String name, Finding why) {
        toLookAt.add(name);
        findings.add(why);
    }

    void add(Finding finding) {
        findings.add(finding);
    }

    DeidentificationReport report(
            String subject, Deidentification.Dates dates, int found, DeidentificationPlan plan, int notWritten) {
        boolean shifted = dates == Deidentification.Dates.SHIFTED;
        List<Finding> all = new ArrayList<>(FindingSummary.of(findings));
        addSums(all, plan, notWritten);
        return new DeidentificationReport(
                Caution.TEXT,
                Software.running().toString(),
                DeidentificationReport.FORMAT_VERSION,
                shifted ? PROFILE + ", Retain Longitudinal Temporal Information With Modified Dates" : PROFILE,
                shifted ? List.of("113100", "113107") : List.of("113100"),
                subject,
                dates.name().toLowerCase(Locale.ROOT),
                new DeidentificationReport.Files(found, written, leftOut, plan.directories(), notWritten),
                changes.entrySet().stream()
                        .map(e -> new AttributeEntry(
                                e.getKey().tag(),
                                e.getKey().keyword(),
                                e.getKey().kind().words(),
                                e.getValue()[0],
                                e.getValue()[1]))
                        .toList(),
                List.copyOf(toLookAt),
                LIMITS,
                all);
    }

    private void addSums(List<Finding> all, DeidentificationPlan plan, int notWritten) {
        if (plan.patients() > 1) {
            all.add(Finding.warning(
                    "SEVERAL_PATIENTS",
                    "the files carry " + plan.patients()
                            + " different patient IDs, an absent one counted as one; all were given one code",
                    ""));
        }
        int datesNotRead = changes.entrySet().stream()
                .filter(e -> e.getKey().kind() == AttributeChange.Kind.DATE_NOT_READ)
                .mapToInt(e -> e.getValue()[1])
                .sum();
        if (datesNotRead > 0) {
            all.add(Finding.warning(
                    "DATE_NOT_READ",
                    datesNotRead + " dates name no day, so they could not be shifted and were taken out",
                    ""));
        }
        boolean reports = changes.keySet().stream()
                .anyMatch(c -> c.tag().equals(CONTENT_SEQUENCE) && c.kind() == AttributeChange.Kind.REPLACED);
        if (reports) {
            all.add(Finding.warning(
                    "REPORT_TEXT_REMOVED", "the content of reports and key object notes was taken out as a whole", ""));
        }
        if (notWritten > 0) {
            all.add(Finding.warning(
                    "NOT_WRITTEN", notWritten + " files are no DICOM objects or are damaged and were not written", ""));
        }
    }
}
