package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructReadException;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.SettingsException;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.Verdict;
import org.holdfast.volume.Comparability.Difference;
import org.holdfast.volume.Comparability.Effect;

/** Reads back what was measured of a subject: {@code results/contact.json} and {@code results/samples.json}. */
public final class StoredCourse {

    /** Folder of the results in a subject's folder. */
    static final String FOLDER = "results";

    static final String CONTACT = "contact.json";
    static final String SAMPLES = "samples.json";

    private final MeasurementSettings settings;
    private final Construct construct;

    private StoredCourse(MeasurementSettings settings, Construct construct) {
        this.settings = settings;
        this.construct = construct;
    }

    /**
     * The report of a subject's folder; empty if nothing was measured yet.
     *
     * @throws UseCaseException if a document is damaged, or the two are not of one run; names file, place, what was
     *     expected and found
     */
    public static Optional<ContactReport> read(Path subjectFolder) throws UseCaseException {
        Path contactFile = subjectFolder.resolve(FOLDER).resolve(CONTACT);
        Path samplesFile = subjectFolder.resolve(FOLDER).resolve(SAMPLES);
        if (!Files.exists(contactFile) || !Files.exists(samplesFile)) {
            return Optional.empty();
        }
        JsonCursor contact = new JsonCursor(JsonFile.read(contactFile), contactFile.toString());
        JsonCursor samples = new JsonCursor(JsonFile.read(samplesFile), samplesFile.toString());
        requireVersion(contact, ContactDocument.FORMAT_VERSION);
        requireVersion(samples, SamplesDocument.FORMAT_VERSION);
        String sha256 = sha256(contactFile);
        if (!samples.field("contactSha256").text().equals(sha256)) {
            throw new UseCaseException(samplesFile + ": contactSha256: expected " + sha256 + ", the hash of "
                    + contactFile + ", found "
                    + JsonFile.found(samples.field("contactSha256").node())
                    + "; the two files are not of one run");
        }
        StoredCourse course =
                new StoredCourse(settings(contact.field("settings")), construct(samples.field("construct")));
        List<JsonCursor> exams = new ArrayList<>();
        List<FilmResult> films = new ArrayList<>();
        for (JsonCursor exam : contact.field("exams").list()) {
            if (exam.field(ContactDocument.KIND).node().asText("").equals(ContactDocument.RADIOGRAPH)) {
                films.add(film(exam));
            } else {
                exams.add(exam);
            }
        }
        List<JsonCursor> extras = samples.field("exams").list();
        if (exams.size() != extras.size()) {
            throw samples.field("exams").wrong(exams.size() + " exams");
        }
        List<ExamResult> results = new ArrayList<>();
        for (int n = 0; n < exams.size(); n++) {
            results.add(course.exam(exams.get(n), extras.get(n)));
        }
        return Optional.of(new ContactReport(
                course.construct, course.settings, results, films, findings(contact.field("findings"))));
    }

    private static FilmResult film(JsonCursor exam) throws UseCaseException {
        List<String> series = new ArrayList<>();
        for (JsonCursor uid : exam.field(ContactDocument.SERIES).list()) {
            series.add(uid.text());
        }
        return new FilmResult(exam.field("label").text(), series, days(exam), findings(exam.field("findings")));
    }

    private static OptionalInt days(JsonCursor exam) throws UseCaseException {
        JsonCursor days = exam.field("daysSinceSurgery");
        return days.node().isNull() ? OptionalInt.empty() : OptionalInt.of(days.integer());
    }

    /** Hash of a document's bytes, hex. */
    static String sha256(byte[] document) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(document));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Hash of a file's bytes, hex. */
    static String sha256(Path file) throws UseCaseException {
        try {
            return sha256(Files.readAllBytes(file));
        } catch (IOException e) {
            throw new UseCaseException(file + ": cannot be read: " + FileFailure.words(e), e);
        }
    }

    private ExamResult exam(JsonCursor exam, JsonCursor extra) throws UseCaseException {
        JsonCursor pose = exam.field("pose");
        List<JsonCursor> parts = exam.field("parts").list();
        List<JsonCursor> more = extra.field("parts").list();
        if (parts.size() != more.size()) {
            throw extra.field("parts").wrong(parts.size() + " parts");
        }
        List<InterfaceExam> read = new ArrayList<>();
        for (int n = 0; n < parts.size(); n++) {
            read.add(part(parts.get(n), more.get(n), exam.field("label").text()));
        }
        return new ExamResult(
                exam.field("label").text(),
                exam.field("seriesUid").text(),
                exam.field("seriesSha256").text(),
                days(exam),
                exam.field("reference").yesOrNo(),
                comparability(exam.field("comparability"), extra.field("comparabilityNames")),
                poseKind(pose.field("kind")),
                pose.field("source").text(),
                matrix(pose.field("referenceToExam")),
                spread(exam.field("pointSpread")),
                read,
                findings(exam.field("findings")));
    }

    private InterfaceExam part(JsonCursor part, JsonCursor extra, String label) throws UseCaseException {
        String id = part.field("id").text();
        if (!extra.field("id").text().equals(id)) {
            throw extra.field("id").wrong(id);
        }
        var face = construct.interfaces().stream()
                .filter(each -> each.id().equals(id))
                .findFirst()
                .orElseThrow(() -> part.field("id").wrong("an interface of construct " + construct.id()));
        JsonCursor byThreshold = part.field("contact").field("byThreshold");
        return InterfaceExam.ofThreshold(
                face,
                label,
                verdict(part.field("verdict")),
                byThreshold.node().isNull()
                        ? Optional.empty()
                        : Optional.of(StoredContact.read(byThreshold, extra.field("byThreshold"), face, settings)),
                part.field("key").text());
    }

    private static Verdict verdict(JsonCursor verdict) throws UseCaseException {
        String words = verdict.field("value").text();
        List<String> causes = new ArrayList<>();
        for (JsonCursor cause : verdict.field("causes").list()) {
            causes.add(cause.text());
        }
        for (Verdict.Value value : Verdict.Value.values()) {
            if (value.words().equals(words) && causes.isEmpty() == (value == Verdict.Value.ANSWERABLE)) {
                return new Verdict(value, causes);
            }
        }
        throw verdict.wrong("a verdict with its causes");
    }

    private static List<Difference> comparability(JsonCursor entries, JsonCursor names) throws UseCaseException {
        List<Difference> differences = new ArrayList<>();
        List<JsonCursor> named = names.list();
        if (named.size() != entries.list().size()) {
            throw names.wrong(entries.list().size() + " names");
        }
        for (JsonCursor entry : entries.list()) {
            differences.add(new Difference(
                    entry.field("field").text(),
                    named.get(differences.size()).text(),
                    entry.field("reference").text(),
                    entry.field("exam").text(),
                    entry.field("effect").oneOf(Effect.class),
                    entry.field("text").text()));
        }
        return differences;
    }

    private static PoseKind poseKind(JsonCursor kind) throws UseCaseException {
        for (PoseKind each : PoseKind.values()) {
            if (each.name().toLowerCase(Locale.ROOT).equals(kind.text())) {
                return each;
            }
        }
        throw kind.wrong("one of " + List.of(PoseKind.values()));
    }

    private static RigidTransform matrix(JsonCursor numbers) throws UseCaseException {
        List<JsonCursor> all = numbers.list();
        double[] matrix = new double[all.size()];
        for (int n = 0; n < matrix.length; n++) {
            matrix[n] = all.get(n).number();
        }
        try {
            return RigidTransform.ofMatrix(matrix);
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(numbers.at() + ": " + e.getMessage(), e);
        }
    }

    private static PointSpreadEstimate spread(JsonCursor spread) throws UseCaseException {
        try {
            return new PointSpreadEstimate(
                    spread.field("sigmaInPlaneMm").number(),
                    spread.field("sigmaAlongTableMm").number(),
                    spread.field("source").oneOf(PointSpreadEstimate.Source.class));
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(spread.at() + ": " + e.getMessage(), e);
        }
    }

    private static List<Finding> findings(JsonCursor array) throws UseCaseException {
        List<Finding> findings = new ArrayList<>();
        for (JsonCursor entry : array.list()) {
            try {
                findings.add(new Finding(
                        entry.field("code").text(),
                        entry.field("severity").oneOf(Severity.class),
                        entry.field("text").text(),
                        entry.field("where").text()));
            } catch (IllegalArgumentException e) {
                throw new UseCaseException(entry.at() + ": " + e.getMessage(), e);
            }
        }
        return findings;
    }

    private static MeasurementSettings settings(JsonCursor settings) throws UseCaseException {
        try {
            return SettingsJson.parse(settings.node().toString(), settings.at());
        } catch (SettingsException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    private static Construct construct(JsonCursor construct) throws UseCaseException {
        try {
            return ConstructJson.parse(construct.text(), construct.at());
        } catch (ConstructReadException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    private static void requireVersion(JsonCursor document, int version) throws UseCaseException {
        if (document.field("formatVersion").integer() != version) {
            throw document.field("formatVersion").wrong(String.valueOf(version));
        }
    }
}
