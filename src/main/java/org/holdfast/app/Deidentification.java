package org.holdfast.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.PixelCopy;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.intake.BurnedInRisk;
import org.holdfast.intake.DateHandling;
import org.holdfast.intake.Deidentifier;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.Pseudonyms;
import org.holdfast.progress.Progress;

/**
 * Use case: copies of one subject's DICOM files without identity, in a new folder, with a table of what was done. The
 * files are read where they are and never changed; pixels are copied as they are. Stateless.
 */
public final class Deidentification {

    /** The table as a document, in the new folder; written last. */
    public static final String DOCUMENT = "deidentification.json";
    /** The table for a spreadsheet, in the new folder. */
    public static final String TABLE = "deidentification.csv";

    private static final double FILES_SHARE = 0.05;
    private static final double HEADER_SHARE = 0.3;
    private static final int ENCAPSULATED_DOCUMENT = 0x00420011;

    /** What to do with dates. */
    public enum Dates {
        /** All dates of the subject are moved by the same secret number of weeks. */
        SHIFTED,
        /** Dates and times are taken out. */
        REMOVED;

        DateHandling handling() {
            return this == SHIFTED ? DateHandling.SHIFTED : DateHandling.REMOVED;
        }
    }

    /** What to do with images whose pixels may show text. */
    public enum RiskyImages {
        WRITE,
        LEAVE_OUT
    }

    /**
     * What is asked for.
     *
     * @param in files of one subject, or one file
     * @param out folder to write; empty or absent, not inside the other
     * @param subject the study's code of the subject
     * @param key file of the secret; empty for the usual place
     */
    public record Request(
            Path in, Path out, String subject, Dates dates, RiskyImages riskyImages, Optional<Path> key) {}

    /**
     * What came of it.
     *
     * @param report the document, which may go with the files
     * @param key file of the secret
     * @param keyIsNew whether it was made just now
     * @param failures what was not written and why; names the person's own files, so it is not for the document
     */
    public record Outcome(DeidentificationReport report, Path key, boolean keyIsNew, List<Failure> failures) {

        public Outcome {
            failures = List.copyOf(failures);
        }
    }

    /** One file that was not written. */
    public record Failure(Path path, String reason) {}

    private Deidentification() {}

    /** Whether a text can be a subject's code: 1 to 64 letters, digits, - and _. */
    public static boolean isSubjectCode(String text) {
        return Pseudonyms.isCode(text);
    }

    /** Where the secret lies unless told otherwise: {@code Holdfast/deidentification.key} in the person's home. */
    public static Path usualKey() {
        return DeidentificationKey.place();
    }

    /**
     * De-identifies the files. One that cannot be read is told and stops nothing.
     *
     * @throws UseCaseException if the folders do not allow it, the key is not one, or a file cannot be written
     * @throws CancellationException if cancelled; files that are there then are whole, but the table is missing
     */
    public static Outcome run(Request request, Progress progress) throws UseCaseException {
        requireFolders(request);
        List<IntakeReport.Unreadable> unreadable = new ArrayList<>();
        List<Path> files = Intake.filesIn(List.of(request.in), unreadable, progress.part(0, FILES_SHARE));
        if (files.isEmpty()) {
            throw new UseCaseException(request.in + ": there are no files");
        }
        DeidentificationKey key = DeidentificationKey.at(request.key.orElseGet(DeidentificationKey::place));
        Deidentifier deidentifier =
                new Deidentifier(new Pseudonyms(key.bytes(), request.subject), request.dates.handling());
        DeidentificationPlan plan =
                DeidentificationPlan.of(files, deidentifier, progress.part(FILES_SHARE, HEADER_SHARE));
        List<Failure> failures = new ArrayList<>();
        unreadable.forEach(u -> failures.add(new Failure(Path.of(u.path()), u.reason())));
        failures.addAll(plan.failures());
        DeidentificationTally tally = new DeidentificationTally();
        Progress writing = progress.part(HEADER_SHARE, 1);
        for (int i = 0; i < plan.files().size(); i++) {
            writing.stopIfCancelled();
            DeidentificationPlan.Place place = plan.files().get(i);
            try {
                write(request, place, deidentifier, tally);
            } catch (DicomReadException e) {
                failures.add(new Failure(place.from(), e.reason()));
            }
            writing.report((i + 1.0) / plan.files().size(), "writing " + place.name());
        }
        int found = files.size() + unreadable.size();
        DeidentificationReport report = tally.report(request.subject, request.dates, found, plan, failures.size());
        writeTables(request.out, report);
        return new Outcome(report, key.file(), key.isNew(), failures);
    }

    private static void requireFolders(Request request) throws UseCaseException {
        try {
            Path in = request.in.toRealPath();
            Path out = request.out.toAbsolutePath().normalize();
            if (out.startsWith(in) || Files.exists(out) && out.toRealPath().startsWith(in)) {
                throw new UseCaseException(
                        request.out + ": lies inside " + request.in + ", which is not to be changed");
            }
            if (Files.exists(out)) {
                try (Stream<Path> content = Files.list(out)) {
                    if (content.findAny().isPresent()) {
                        throw new UseCaseException(request.out + ": the folder is not empty");
                    }
                }
            }
        } catch (IOException e) {
            String what = Files.exists(request.in) ? request.out.toString() : request.in.toString();
            throw new UseCaseException(what + ": " + FileFailure.words(e), e);
        }
    }

    private static void write(
            Request request, DeidentificationPlan.Place place, Deidentifier deidentifier, DeidentificationTally tally)
            throws UseCaseException, DicomReadException {
        DicomFile file = DicomReader.read(place.from());
        DataSet data = identified(file);
        if (data.contains(ENCAPSULATED_DOCUMENT)) {
            tally.leftOut(Finding.warning(
                    "DOCUMENT_LEFT_OUT", "an object that holds a document, such as a scanned page, is left out", ""));
            return;
        }
        Optional<String> risk = file.pixels().isPresent() ? BurnedInRisk.of(data) : Optional.empty();
        if (risk.isPresent() && request.riskyImages == RiskyImages.LEAVE_OUT) {
            tally.leftOut(Finding.warning("BURNED_IN_TEXT_RISK", risk.get() + "; left out", ""));
            return;
        }
        PixelCopy pixels = PixelCopy.of(file);
        Deidentifier.Result result = deidentifier.apply(data);
        Path target = request.out.resolve(place.name());
        try {
            Files.createDirectories(target.getParent());
            DicomWriter.write(target, result.dataSet(), pixels);
        } catch (IOException e) {
            throw new UseCaseException(target + ": cannot be written: " + FileFailure.words(e), e);
        }
        tally.written(result.changes());
        risk.ifPresent(why -> tally.lookAt(
                place.name(),
                Finding.warning("BURNED_IN_TEXT_RISK", why + "; look at it before it leaves", place.name())));
        if (BurnedInRisk.showsFeatures(data)) {
            tally.lookAt(
                    place.name(),
                    Finding.warning(
                            "RECOGNIZABLE_FEATURES",
                            "the file says that a person can be recognized in it",
                            place.name()));
        }
        if (pixels.carriesComments()) {
            tally.lookAt(
                    place.name(),
                    Finding.warning(
                            "PIXEL_STREAM_COMMENT",
                            "compressed frames carry a comment or other data beside the picture, copied with them",
                            place.name()));
        }
        if (pixels.leavesExcessBehind()) {
            tally.add(Finding.info("PIXEL_EXCESS_CUT", "bytes behind the last frame were not copied", place.name()));
        }
    }

    /** The data set with the class and UID that its file meta information gives where it lacks them itself. */
    static DataSet identified(DicomFile file) throws DicomReadException {
        DataSet.Builder out = file.dataSet().toBuilder();
        int[][] pairs = {
            {Tag.SOP_CLASS_UID, Tag.MEDIA_STORAGE_SOP_CLASS_UID},
            {Tag.SOP_INSTANCE_UID, Tag.MEDIA_STORAGE_SOP_INSTANCE_UID}
        };
        for (int[] pair : pairs) {
            String uid = file.dataSet()
                    .string(pair[0])
                    .or(() -> file.meta().string(pair[1]))
                    .orElse("");
            if (!uid.matches("[0-9.]{1,64}")) {
                throw new DicomReadException(
                        file.path(), -1, OptionalInt.of(pair[0]), "a UID that says what the object is", "none", null);
            }
            out.string(pair[0], uid);
        }
        return out.build();
    }

    private static void writeTables(Path out, DeidentificationReport report) throws UseCaseException {
        try {
            Files.createDirectories(out);
            try (NewFiles files = new NewFiles(out)) {
                Files.writeString(files.path(TABLE), report.csv(), StandardCharsets.UTF_8);
                Files.writeString(files.path(DOCUMENT), report.json() + "\n", StandardCharsets.UTF_8);
                files.move(DOCUMENT);
            }
        } catch (IOException e) {
            throw new UseCaseException(out + ": the table cannot be written: " + FileFailure.words(e), e);
        }
    }
}
