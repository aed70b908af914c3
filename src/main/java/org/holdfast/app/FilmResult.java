package org.holdfast.app;

import java.util.List;
import java.util.Objects;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;
import org.holdfast.measure.Verdict;

/**
 * An exam of radiographs in a report of measurements: it is listed, not measured. Immutable.
 *
 * @param label column label
 * @param seriesUids its series
 * @param daysSinceSurgery exact day; empty if the exam is undated
 * @param findings what a person should know about this exam
 */
public record FilmResult(String label, List<String> seriesUids, OptionalInt daysSinceSurgery, List<Finding> findings) {

    /** What can be asked of every part on a radiograph. */
    public static final Verdict VERDICT = new Verdict(
            Verdict.Value.READER_ONLY,
            List.of("a radiograph: it has no HU, so contact cannot be measured on it; it is read by eye"));

    public FilmResult {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(daysSinceSurgery, "daysSinceSurgery");
        seriesUids = List.copyOf(seriesUids);
        findings = List.copyOf(findings);
    }
}
