package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * The subject's folder that exams are taken into, as it is now. Immutable.
 *
 * @param folder the folder; it need not exist yet
 * @param subject the subject that is in it; empty for a new one
 * @param why why nothing can be taken into it; empty if it can
 * @param whyNotRefer why images cannot stay where they are; empty if they can
 */
public record TakeInTarget(Path folder, Optional<Subject> subject, Optional<String> why, Optional<String> whyNotRefer) {

    /**
     * A subject that is there already.
     *
     * @param code its study code
     * @param surgery day of the operation in the calendar of the files that are taken in
     * @param labels labels of its exams
     * @param seriesThere ids of the series of the session that it has already
     * @param hasShiftedDates whether all its dates are shifted by the subject's secret number of days
     */
    public record Subject(
            String code, LocalDate surgery, Set<String> labels, Set<String> seriesThere, boolean hasShiftedDates) {

        public Subject {
            Objects.requireNonNull(code, "code");
            Objects.requireNonNull(surgery, "surgery");
            labels = Set.copyOf(labels);
            seriesThere = Set.copyOf(seriesThere);
        }
    }

    public TakeInTarget {
        Objects.requireNonNull(folder, "folder");
        Objects.requireNonNull(subject, "subject");
        Objects.requireNonNull(why, "why");
        Objects.requireNonNull(whyNotRefer, "whyNotRefer");
    }

    /** A folder without a subject. */
    public static TakeInTarget fresh(Path folder) {
        return new TakeInTarget(folder, Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** A folder that nothing can be taken into. */
    public static TakeInTarget unusable(Path folder, String why) {
        return new TakeInTarget(folder, Optional.empty(), Optional.of(why), Optional.empty());
    }

    /** Whether the subject has a series already. */
    public boolean has(IntakeSeries series) {
        return subject.isPresent() && subject.get().seriesThere().contains(series.id());
    }
}
