package org.holdfast.app;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.app.InspectionReport.ExamEntry;
import org.holdfast.app.InspectionReport.UseEntry;
import org.holdfast.intake.FoundExam;
import org.holdfast.intake.RoleReason;
import org.holdfast.intake.SeriesUse;

/** Turns exams into their entries of the inspection's document. */
final class ExamEntries {

    static final String NO_DATE = "no file says the day of the scan: it must be given";

    static final String NO_SOURCE = "there is no day";

    private ExamEntries() {}

    static List<ExamEntry> of(List<FoundExam> exams) {
        return exams.stream().map(ExamEntries::of).toList();
    }

    private static ExamEntry of(FoundExam exam) {
        Optional<String> date = exam.date().map(LocalDate::toString);
        return new ExamEntry(
                exam.patient(),
                date.orElse(null),
                date.isPresent() ? null : NO_DATE,
                date.isPresent() ? exam.dateSource() : null,
                date.isPresent() ? null : NO_SOURCE,
                exam.uses().stream().map(ExamEntries::of).toList(),
                exam.findings());
    }

    private static UseEntry of(SeriesUse use) {
        return new UseEntry(
                use.series().seriesInstanceUid(),
                use.stack().map(stack -> stack.stackNumber()).orElse(null),
                use.stack().isPresent() ? null : "the series has no stack of slices",
                use.name(),
                use.series().description(),
                use.series().kind().name().toLowerCase(Locale.ROOT),
                use.images(),
                use.role().name().toLowerCase(Locale.ROOT),
                use.reasons().stream().map(RoleReason::text).toList());
    }
}
