package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.RadiographChoice;
import org.holdfast.intake.StackChoice;
import org.holdfast.progress.Progress;

/** An exam whose headers were read: a stack that can be measured, or else radiographs that are read by eye. Immutable. */
sealed interface Opened permits OpenedExam, OpenedFilms {

    /** Share of the progress of opening that finding the files takes. */
    double SCAN_SHARE = 0.9;

    /** The exam as it was named. */
    ExamArgument argument();

    /** What a person should know about it. */
    List<Finding> findings();

    /** Days since surgery; empty if the exam is undated. */
    OptionalInt days();

    /** Column label. */
    String label();

    /** The first of its image files. */
    Path firstFile();

    /**
     * Reads the headers of an exam's files.
     *
     * @throws UseCaseException if there is neither a stack to measure nor a radiograph to show; names the folder and why
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    static Opened open(ExamArgument exam, Construct construct, Progress progress) throws UseCaseException {
        IntakeReport report = Intake.scan(List.of(exam.folder()), progress.part(0, SCAN_SHARE));
        StackChoice choice = StackChoice.of(report, exam.seriesUid());
        RadiographChoice films = RadiographChoice.of(report, exam.seriesUid(), progress.part(SCAN_SHARE, 1));
        List<Finding> notes = new ArrayList<>();
        Optional<LocalDate> day;
        if (choice.stack().isPresent()) {
            notes.addAll(choice.findings());
            notes.addAll(report.unreadableFindings());
            notes.addAll(report.findingsOf(choice.stack().get()));
            notes.addAll(beside(films));
            day = day(exam, choice.stack().get().acquisition().date(), notes);
        } else if (!films.films().isEmpty()) {
            notes.addAll(films.findings());
            notes.addAll(report.unreadableFindings());
            day = day(exam, OpenedFilms.day(films.films()), notes);
        } else {
            notes.addAll(choice.findings());
            notes.addAll(films.findings());
            notes.addAll(report.unreadableFindings());
            throw new UseCaseException(exam.folder() + ": " + sentences(notes));
        }
        OptionalInt days = day.isPresent()
                ? OptionalInt.of(ExamLabel.daysSince(construct.operationDate(), day.get()))
                : OptionalInt.empty();
        String label = exam.label().orElseGet(() -> ExamLabel.of(days));
        return choice.stack().isPresent()
                ? new OpenedExam(exam, choice.stack().get(), films.films(), notes, days, label)
                : new OpenedFilms(exam, films.films(), notes, days, label);
    }

    private static List<Finding> beside(RadiographChoice films) {
        int many = films.films().size();
        return many == 0
                ? List.of()
                : List.of(Finding.info(
                        "RADIOGRAPHS_BESIDE",
                        many + (many == 1 ? " radiograph lies" : " radiographs lie")
                                + " in the folder too: seen beside the whole exam, not measured",
                        films.films().get(0).file().name()));
    }

    /** The day by the files, else the one given beside them. */
    private static Optional<LocalDate> day(ExamArgument exam, Optional<LocalDate> scanned, List<Finding> notes) {
        if (exam.date().isPresent() && scanned.isPresent() && !scanned.equals(exam.date())) {
            notes.add(Finding.warning(
                    "DATE_DIFFERS",
                    "The files say that the exam was made on " + scanned.get() + ", the subject's document says "
                            + exam.date().get() + "; the files' day is taken.",
                    exam.folder().toString()));
        }
        if (exam.date().isPresent() && scanned.isEmpty()) {
            notes.add(Finding.info(
                    "DATE_GIVEN",
                    "The day of the exam is the subject's document's: "
                            + exam.date().get(),
                    exam.folder().toString()));
        }
        return scanned.or(exam::date);
    }

    private static String sentences(List<Finding> notes) {
        return String.join(
                "; ",
                notes.stream()
                        .map(note -> (note.where().isEmpty() ? "" : note.where() + ": ") + note.text())
                        .toList());
    }
}
