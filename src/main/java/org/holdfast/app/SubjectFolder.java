package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A subject as a folder: {@code subject.json {code, surgeryDate, construct, datesShifted?, exams [{label, folder, date?,
 * posture?, series? [{seriesUid, role, folder?, why?}]}]}} and what it names, paths relative to the folder.
 *
 * @param folder the folder
 * @param code the subject's study code
 * @param surgeryDate day of the operation
 * @param construct the construct document
 * @param shiftMark tells by which secret all dates of the subject are shifted; empty if they are as they were
 * @param exams the exams, in the order of the document
 */
public record SubjectFolder(
        Path folder, String code, LocalDate surgeryDate, Path construct, Optional<String> shiftMark, List<Exam> exams) {

    /** Name of the document in the folder. */
    public static final String DOCUMENT = "subject.json";

    private static final Set<String> SUBJECT_FIELDS =
            Set.of("code", "surgeryDate", "construct", "datesShifted", "exams");
    private static final Set<String> EXAM_FIELDS = Set.of("label", "folder", "date", "posture", "series");
    private static final Set<String> SERIES_FIELDS = Set.of("seriesUid", "role", "folder", "why");

    /**
     * One exam.
     *
     * @param label column label
     * @param folder folder with its series
     * @param date day of the exam, where the document says
     * @param posture posture, where the document says
     * @param series what its series are for, where the document says; none to have it proposed
     */
    public record Exam(
            String label, Path folder, Optional<LocalDate> date, Optional<String> posture, List<ExamSeries> series) {

        public Exam {
            series = List.copyOf(series);
        }

        /** The series that is measured, where the document says. */
        public Optional<ExamSeries> measured() {
            return series.stream()
                    .filter(each -> each.role() == SeriesRole.MEASURE)
                    .findFirst();
        }
    }

    /**
     * What one series of an exam is for.
     *
     * @param seriesUid the series
     * @param role what it is for
     * @param folder folder with its files
     * @param why why it has this role
     */
    public record ExamSeries(String seriesUid, SeriesRole role, Path folder, String why) {}

    public SubjectFolder {
        exams = List.copyOf(exams);
    }

    /**
     * Reads a subject's folder.
     *
     * @throws UseCaseException if the document is missing or not such a document; names file and field
     */
    public static SubjectFolder read(Path folder) throws UseCaseException {
        Path file = folder.resolve(DOCUMENT);
        JsonNode root = JsonFile.read(file);
        requireObject(root, file.toString());
        requireKnown(root, SUBJECT_FIELDS, file + ": ");
        List<Exam> exams = new ArrayList<>();
        JsonNode array = root.path("exams");
        if (!array.isArray() || array.isEmpty()) {
            throw new UseCaseException(file + ": exams: expected at least one exam, found " + JsonFile.found(array));
        }
        for (int n = 0; n < array.size(); n++) {
            String at = file + ": exams[" + n + "]";
            JsonNode exam = array.get(n);
            requireObject(exam, at);
            at += ".";
            requireKnown(exam, EXAM_FIELDS, at);
            String label = text(exam, "label", at);
            requireOwnLabel(label, exams, at);
            exams.add(new Exam(
                    label,
                    path(folder, exam, "folder", at),
                    exam.hasNonNull("date") ? Optional.of(date(exam, "date", at)) : Optional.empty(),
                    exam.hasNonNull("posture") ? Optional.of(text(exam, "posture", at)) : Optional.empty(),
                    series(folder, exam, at)));
        }
        String at = file + ": ";
        return new SubjectFolder(
                folder,
                text(root, "code", at),
                date(root, "surgeryDate", at),
                path(folder, root, "construct", at),
                root.hasNonNull("datesShifted") ? Optional.of(text(root, "datesShifted", at)) : Optional.empty(),
                exams);
    }

    private static List<ExamSeries> series(Path folder, JsonNode exam, String at) throws UseCaseException {
        List<ExamSeries> all = new ArrayList<>();
        JsonNode array = exam.path("series");
        if (array.isMissingNode()) {
            return all;
        }
        if (!array.isArray()) {
            throw new UseCaseException(at + "series: expected an array, found " + JsonFile.found(array));
        }
        for (int n = 0; n < array.size(); n++) {
            String place = at + "series[" + n + "]";
            JsonNode series = array.get(n);
            requireObject(series, place);
            place += ".";
            requireKnown(series, SERIES_FIELDS, place);
            all.add(new ExamSeries(
                    text(series, "seriesUid", place),
                    role(series, place),
                    path(folder, series.hasNonNull("folder") ? series : exam, "folder", place),
                    series.path("why").asText("")));
        }
        if (all.stream().filter(each -> each.role() == SeriesRole.MEASURE).count() > 1) {
            throw new UseCaseException(at + "series: an exam is measured on one series, found several");
        }
        return all;
    }

    private static SeriesRole role(JsonNode series, String at) throws UseCaseException {
        String word = text(series, "role", at);
        for (SeriesRole role : SeriesRole.values()) {
            if (role != SeriesRole.LEAVE_OUT && role.written().equals(word)) {
                return role;
            }
        }
        throw new UseCaseException(at + "role: expected measure, confirm or view, found " + word);
    }

    /** Results are kept under an exam's label: two of one label could not be told apart. */
    private static void requireOwnLabel(String label, List<Exam> earlier, String at) throws UseCaseException {
        for (int n = 0; n < earlier.size(); n++) {
            if (earlier.get(n).label().equals(label)) {
                throw new UseCaseException(
                        at + "label: expected a label of its own, found \"" + label + "\", which exams[" + n + "] has");
            }
        }
    }

    private static void requireObject(JsonNode node, String at) throws UseCaseException {
        if (!node.isObject()) {
            throw new UseCaseException(at + ": expected an object, found " + JsonFile.found(node));
        }
    }

    private static void requireKnown(JsonNode node, Set<String> known, String at) throws UseCaseException {
        for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            if (!known.contains(name)) {
                throw new UseCaseException(at + name + ": unknown field; known are " + new java.util.TreeSet<>(known));
            }
        }
    }

    private static String text(JsonNode node, String field, String at) throws UseCaseException {
        JsonNode value = node.path(field);
        if (!value.isTextual() || value.asText().isBlank()) {
            throw new UseCaseException(at + field + ": expected a text, found " + JsonFile.found(value));
        }
        return value.asText();
    }

    private static Path path(Path folder, JsonNode node, String field, String at) throws UseCaseException {
        String text = text(node, field, at);
        try {
            return folder.resolve(text);
        } catch (InvalidPathException e) {
            throw new UseCaseException(at + field + ": not a path on this system: " + e.getReason(), e);
        }
    }

    private static LocalDate date(JsonNode node, String field, String at) throws UseCaseException {
        String text = text(node, field, at);
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw new UseCaseException(at + field + ": expected a date such as 2030-01-31, found " + text, e);
        }
    }
}
