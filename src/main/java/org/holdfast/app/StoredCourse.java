package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructReadException;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsException;
import org.holdfast.measure.SettingsJson;

/** Reads back what was measured of a subject: {@code results/measure.json} and {@code results/samples.json}. */
public final class StoredCourse {

    /** Folder of the results in a subject's folder. */
    static final String FOLDER = "results";

    static final String MEASURE = "measure.json";
    static final String SAMPLES = "samples.json";
    /** What a version that measured contact only left. */
    static final String CONTACT_ONLY = "contact.json";

    private StoredCourse() {}

    /**
     * The report of a subject's folder; empty if nothing was measured yet.
     *
     * @throws UseCaseException if a document is damaged, or the two are not of one run; names file, place, what was
     *     expected and found
     */
    public static Optional<ContactReport> read(Path subjectFolder) throws UseCaseException {
        Path measureFile = subjectFolder.resolve(FOLDER).resolve(MEASURE);
        Path samplesFile = subjectFolder.resolve(FOLDER).resolve(SAMPLES);
        if (!Files.exists(measureFile) || !Files.exists(samplesFile)) {
            return Optional.empty();
        }
        JsonCursor measure = new JsonCursor(JsonFile.read(measureFile), measureFile.toString());
        JsonCursor samples = new JsonCursor(JsonFile.read(samplesFile), samplesFile.toString());
        requireVersion(measure, ReportDocument.FORMAT_VERSION);
        requireVersion(samples, SamplesDocument.FORMAT_VERSION);
        String sha256 = sha256(measureFile);
        JsonCursor expected = samples.field(SamplesDocument.MEASURE_SHA256);
        if (!expected.text().equals(sha256)) {
            throw new UseCaseException(expected.at() + ": expected " + sha256 + ", the hash of " + measureFile
                    + ", found " + JsonFile.found(expected.node()) + "; the two files are not of one run");
        }
        Construct construct = construct(samples.field("construct"), subjectFolder);
        MeasurementSettings settings = settings(samples.field("settings"));
        RecordReader reader = new RecordReader(construct, settings.sampleSpacingMm());
        return Optional.of(new ContactReport(
                construct,
                settings,
                all(reader, samples.field("exams"), ExamResult.class),
                all(reader, samples.field("films"), FilmResult.class),
                all(reader, samples.field("findings"), Finding.class)));
    }

    /**
     * What a person should know of results that are there and cannot be shown: those of a version that measured contact
     * by threshold only.
     */
    static List<Finding> older(Path subjectFolder) {
        Path folder = subjectFolder.resolve(FOLDER);
        return Files.exists(folder.resolve(CONTACT_ONLY)) && !Files.exists(folder.resolve(MEASURE))
                ? List.of(Finding.info(
                        "RESULTS_OF_AN_OLDER_VERSION",
                        "The results in the subject's folder were written by an older version, which measured contact by"
                                + " threshold only; they are left as they are. Measure anew to see all.",
                        folder.resolve(CONTACT_ONLY).toString()))
                : List.of();
    }

    private static <R extends Record> List<R> all(RecordReader reader, JsonCursor array, Class<R> type)
            throws UseCaseException {
        List<R> all = new ArrayList<>();
        for (JsonCursor each : array.list()) {
            all.add(reader.read(each, type));
        }
        return all;
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

    private static MeasurementSettings settings(JsonCursor settings) throws UseCaseException {
        try {
            return SettingsJson.parse(settings.node().toString(), settings.at());
        } catch (SettingsException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    /** The construct as measured; surfaces in files are where the subject's own construct has them. */
    private static Construct construct(JsonCursor construct, Path subjectFolder) throws UseCaseException {
        Path folder = Files.exists(subjectFolder.resolve(SubjectFolder.DOCUMENT))
                ? SubjectFolder.read(subjectFolder).construct().getParent()
                : subjectFolder;
        try {
            return ConstructJson.parse(construct.text(), construct.at(), folder);
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
