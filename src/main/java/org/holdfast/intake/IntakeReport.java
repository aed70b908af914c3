package org.holdfast.intake;

import java.util.List;
import java.util.function.Function;
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
     * @param path the file as a person knows it: its path, or {@code archive.zip!entry}
     * @param reason why, in words
     */
    public record Unreadable(String path, String reason) {}

    public IntakeReport {
        series = List.copyOf(series);
        unreadable = List.copyOf(unreadable);
        findings = List.copyOf(findings);
    }

    /**
     * The visits that the series belong to, each series with its role as proposed; by patient, then by day, those without a
     * day last. The same for the same files in whatever order and by whatever names. Whether metal is clipped is judged by
     * the headers.
     */
    public List<FoundExam> exams() {
        return exams(ScaleReach::ofHeader);
    }

    /**
     * {@link #exams()} with what the pixels showed of each stack's scale.
     *
     * @param reach how far a stack's HU scale reaches up
     */
    public List<FoundExam> exams(Function<Stack, ScaleReach> reach) {
        return new ExamGrouping(Patients.of(series), new RoleProposal(reach)).exams(series);
    }

    /** 1-based number of each series' patient among those of the input, in the order of {@link #series}. */
    public List<Integer> patientNumbers() {
        Patients patients = Patients.of(series);
        return series.stream().map(patients::numberOf).toList();
    }

    /** Files that could not be read as findings, one for all that could not for the same reason. */
    public List<Finding> unreadableFindings() {
        return FindingSummary.of(unreadable.stream()
                .map(u -> Finding.error("FILE_NOT_READ", u.reason(), u.path()))
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
