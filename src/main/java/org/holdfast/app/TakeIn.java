package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.PixelCopy;
import org.holdfast.intake.DateHandling;
import org.holdfast.intake.Deidentifier;
import org.holdfast.intake.ImageHeader;
import org.holdfast.intake.Series;
import org.holdfast.intake.SeriesUse;
import org.holdfast.progress.Progress;

/**
 * Carries out what was decided: copies without identity, or the places of the originals, and the subject's document. All is
 * written beside the places of the files and moved at the end, the document last. One run; not thread-safe.
 */
final class TakeIn {

    private final IntakePatient patient;
    private final TakeInPlan plan;
    private final Map<String, SeriesUse> uses;
    private final Path folder;
    private final Map<String, Integer> failures = new LinkedHashMap<>();
    private final Set<String> names = new HashSet<>();
    private final int all;
    private int written;
    private int done;

    /** A series with the role that its stacks have together, and why. */
    private record Chosen(Series series, SeriesRole role, String why) {}

    TakeIn(IntakePatient patient, TakeInPlan plan, Map<String, SeriesUse> uses) {
        this.patient = patient;
        this.plan = plan;
        this.uses = uses;
        this.folder = plan.target().folder();
        this.all = plan.taken(patient).stream()
                .flatMap(exam -> chosen(exam).stream())
                .mapToInt(chosen -> chosen.series().files().size())
                .sum();
    }

    TakenIn run(Progress progress) throws UseCaseException, IOException {
        boolean isNew = !Files.exists(folder);
        Files.createDirectories(folder);
        try {
            return write(progress);
        } finally {
            if (isNew && isEmpty()) {
                Files.delete(folder);
            }
        }
    }

    private boolean isEmpty() throws IOException {
        try (var content = Files.list(folder)) {
            return content.findAny().isEmpty();
        }
    }

    private TakenIn write(Progress progress) throws UseCaseException, IOException {
        Optional<TakeInTarget.Subject> there = plan.target().subject();
        boolean copies = plan.way() == Way.COPY;
        boolean shifts =
                copies && there.map(TakeInTarget.Subject::hasShiftedDates).orElse(true);
        Optional<SubjectPseudonyms> secret =
                copies ? Optional.of(SubjectPseudonyms.of(plan.subjectCode())) : Optional.empty();
        SubjectDocument document = there.isPresent()
                ? SubjectDocument.read(folder.resolve(SubjectFolder.DOCUMENT))
                : SubjectDocument.of(
                        plan.subjectCode(),
                        day(plan.surgery().orElseThrow(), shifts, secret),
                        secret.filter(s -> shifts).map(SubjectPseudonyms::mark));
        List<IntakeExam> exams = plan.taken(patient);
        try (NewFiles files = new NewFiles(folder)) {
            for (IntakeExam exam : exams) {
                LocalDate date = day(plan.dateOf(exam).orElseThrow(), shifts, secret);
                if (copies) {
                    Deidentifier deidentifier =
                            secret.orElseThrow().deidentifier(shifts ? DateHandling.SHIFTED : DateHandling.REMOVED);
                    copy(exam, date, deidentifier, files, document, progress);
                } else {
                    refer(exam, date, document);
                }
            }
            progress.stopIfCancelled();
            Files.writeString(files.path(SubjectFolder.DOCUMENT), document.text());
            files.move(SubjectFolder.DOCUMENT);
        }
        progress.report(1, "taken in");
        return new TakenIn(
                folder,
                plan.subjectCode(),
                exams.size(),
                written,
                Files.exists(folder.resolve(SubjectDocument.CONSTRUCT)),
                notes());
    }

    private static LocalDate day(LocalDate day, boolean shifts, Optional<SubjectPseudonyms> secret) {
        return shifts ? secret.orElseThrow().shifted(day) : day;
    }

    private void copy(
            IntakeExam exam,
            LocalDate date,
            Deidentifier deidentifier,
            NewFiles files,
            SubjectDocument document,
            Progress progress)
            throws UseCaseException, IOException {
        String examFolder = freeFolder(plan.labelOf(exam));
        List<SubjectDocument.Series> listed = new ArrayList<>();
        int number = 1;
        for (Chosen chosen : chosen(exam)) {
            String seriesFolder = examFolder + "/" + number++ + "-"
                    + slug(
                            chosen.series().modality().isEmpty()
                                    ? "images"
                                    : chosen.series().modality());
            int before = written;
            int image = 1;
            for (ImageHeader header : chosen.series().files()) {
                progress.stopIfCancelled();
                String name = String.format(Locale.ROOT, "%s/%04d.dcm", seriesFolder, image++);
                copy(header.path(), name, deidentifier, files);
                progress.report(++done / (double) all, "copying without identity: " + plan.labelOf(exam));
            }
            if (written == before) {
                throw new UseCaseException("None of the files of a series could be copied: "
                        + String.join("; ", failures.keySet()) + ". Leave it out, and take the others in.");
            }
            listed.add(new SubjectDocument.Series(
                    deidentifier.uid(chosen.series().seriesInstanceUid()), chosen.role(), seriesFolder, chosen.why()));
        }
        document.add(plan.labelOf(exam), examFolder, date, listed);
    }

    /** A file that cannot be copied is told and stops nothing, as one that cannot be read. */
    private void copy(Path from, String name, Deidentifier deidentifier, NewFiles files) throws IOException {
        try {
            DicomFile file = DicomReader.read(from);
            PixelCopy pixels = PixelCopy.of(file);
            Deidentifier.Result result = deidentifier.apply(Deidentification.identified(file));
            DicomWriter.write(files.path(name), result.dataSet(), pixels);
            written++;
        } catch (DicomReadException e) {
            failures.merge(e.reason(), 1, Integer::sum);
        }
    }

    private void refer(IntakeExam exam, LocalDate date, SubjectDocument document) {
        List<SubjectDocument.Series> listed = new ArrayList<>();
        for (Chosen chosen : chosen(exam)) {
            listed.add(new SubjectDocument.Series(
                    chosen.series().seriesInstanceUid(),
                    chosen.role(),
                    commonFolder(chosen.series()).toString(),
                    chosen.why()));
        }
        document.add(plan.labelOf(exam), listed.get(0).folder(), date, listed);
    }

    /** The series of an exam that are taken in, the measured one first. */
    private List<Chosen> chosen(IntakeExam exam) {
        Map<Series, Chosen> bySeries = new LinkedHashMap<>();
        for (IntakeSeries shown : exam.series()) {
            SeriesRole role = plan.roleOf(shown);
            if (role != SeriesRole.LEAVE_OUT) {
                Series series = uses.get(shown.id()).series();
                Chosen own = new Chosen(series, role, why(shown, role));
                bySeries.merge(series, own, (a, b) -> a.role().compareTo(b.role()) <= 0 ? a : b);
            }
        }
        return bySeries.values().stream()
                .sorted((a, b) -> a.role().compareTo(b.role()))
                .toList();
    }

    private static String why(IntakeSeries series, SeriesRole role) {
        return role == series.proposed()
                ? series.why()
                : "chosen by a person; proposed was: " + series.proposed().written();
    }

    /** A folder that is neither there nor another exam's. */
    private String freeFolder(String label) {
        String wished = "exams/" + slug(label);
        String name = wished;
        for (int n = 2; Files.exists(folder.resolve(name)) || !names.add(name); n++) {
            name = wished + "-" + n;
        }
        return name;
    }

    private static String slug(String words) {
        String plain =
                words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
        return plain.isEmpty() ? "exam" : plain;
    }

    private static Path commonFolder(Series series) {
        Path common = series.files().get(0).path().toAbsolutePath().normalize().getParent();
        for (ImageHeader header : series.files()) {
            Path file = header.path().toAbsolutePath().normalize();
            while (!file.startsWith(common)) {
                common = common.getParent();
            }
        }
        return common;
    }

    private List<IntakeNote> notes() {
        return failures.entrySet().stream()
                .map(each -> new IntakeNote(
                        IntakeNote.Mark.CAUTION,
                        each.getValue() + (each.getValue() == 1 ? " file was" : " files were") + " not copied: "
                                + each.getKey()))
                .toList();
    }
}
