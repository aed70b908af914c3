package org.holdfast.intake;

import java.nio.file.Path;
import java.util.List;
import org.holdfast.finding.Finding;

/**
 * What was found in files and folders. Immutable.
 *
 * @param series the series, by study, series number and UID
 * @param unreadable files that could not be read
 * @param findings what is about the whole input
 */
public record IntakeReport(List<Series> series, List<Unreadable> unreadable, List<Finding> findings) {

    /**
     * A file that could not be read.
     *
     * @param path the file
     * @param reason why, in words
     */
    public record Unreadable(Path path, String reason) {}

    public IntakeReport {
        series = List.copyOf(series);
        unreadable = List.copyOf(unreadable);
        findings = List.copyOf(findings);
    }

    /** Files that could not be read as findings, one for all that could not for the same reason. */
    public List<Finding> unreadableFindings() {
        return FindingSummary.of(unreadable.stream()
                .map(u -> Finding.error("FILE_NOT_READ", u.reason(), u.path().toString()))
                .toList());
    }

    /** What is about a stack, its series included, such as copies left out or several patients under one UID. */
    public List<Finding> findingsOf(Stack stack) {
        return series.stream()
                .filter(s -> s.stacks().contains(stack))
                .flatMap(s -> s.findings().stream())
                .toList();
    }
}
