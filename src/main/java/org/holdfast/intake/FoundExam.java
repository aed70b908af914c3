package org.holdfast.intake;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.finding.Finding;

/**
 * One visit of one patient: all that was made on a day, CT and radiographs together, each series with its role. Immutable.
 *
 * @param patient 1-based number of the patient among those of the input; never the patient's own number or name
 * @param date the day; empty if no file says it, then it must be asked for
 * @param dateSource the attribute that the day was taken from, or who gave it; empty without a day
 * @param uses every series with its role: measured, then confirming, then viewed
 * @param findings what a person should know about the exam as a whole
 */
public record FoundExam(
        int patient, Optional<LocalDate> date, String dateSource, List<SeriesUse> uses, List<Finding> findings) {

    /** Source of a day that a person gave. */
    public static final String GIVEN = "given by a person";

    public FoundExam {
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(dateSource, "dateSource");
        uses = List.copyOf(uses);
        findings = List.copyOf(findings);
        if (patient < 1) {
            throw new IllegalArgumentException("patient must be at least 1, got " + patient);
        }
        if (uses.stream().filter(use -> use.role() == ExamRole.MEASURE).count() > 1) {
            throw new IllegalArgumentException("an exam is measured on one stack at most");
        }
    }

    /** The series that is measured, if any. */
    public Optional<SeriesUse> measured() {
        return uses.stream().filter(use -> use.role() == ExamRole.MEASURE).findFirst();
    }

    /** The same on the day that a person gave. */
    public FoundExam onDay(LocalDate day) {
        return new FoundExam(patient, Optional.of(day), GIVEN, uses, findings);
    }

    /**
     * The same with the role that a person gave to one of its uses. What was measured before is viewed if another is
     * measured now.
     *
     * @throws IllegalArgumentException if the use is none of this exam, or if nothing can be measured on it but should be
     */
    public FoundExam choosing(SeriesUse use, ExamRole role) {
        if (!uses.contains(use)) {
            throw new IllegalArgumentException(
                    "no series of this exam: " + use.series().seriesInstanceUid());
        }
        List<SeriesUse> changed = uses.stream()
                .map(u -> {
                    if (u.equals(use)) {
                        return u.role() == role ? u : u.chosenAs(role);
                    }
                    boolean displaced = role == ExamRole.MEASURE && u.role() == ExamRole.MEASURE;
                    return displaced ? u.chosenAs(ExamRole.VIEW) : u;
                })
                .toList();
        return new FoundExam(patient, date, dateSource, changed, findings);
    }
}
