package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.holdfast.finding.FileFailure;
import org.holdfast.geometry.RigidTransform;

/**
 * Poses set by hand, one an exam, which stand instead of registration: a JSON document with {@code poses [{exam,
 * referenceToExam [16 numbers], by?, on?, why?}]}, where {@code exam} is an exam's label or its SeriesInstanceUID. Other
 * fields are left alone, so that a simulation's truth document can be given as it is.
 *
 * @param source where the poses come from, in words
 * @param byExam the pose of each exam
 * @param remarks who set the pose of an exam, when and why, as far as it is said
 */
public record PoseFile(String source, Map<String, RigidTransform> byExam, Map<String, Remark> remarks) {

    /** Name of the optional document in a subject's folder. */
    public static final String DOCUMENT = "poses.json";

    /** No poses are given. */
    public static final PoseFile NONE = new PoseFile("", Map.of());

    private static final int MATRIX = 16;

    /**
     * Who set a pose, when and why; each may be empty.
     *
     * @param by who
     * @param on day, as written
     * @param why the reason
     */
    public record Remark(String by, String on, String why) {

        private String words() {
            return (by.isEmpty() ? "" : " by " + by)
                    + (on.isEmpty() ? "" : " on " + on)
                    + (why.isEmpty() ? "" : ": " + why);
        }
    }

    public PoseFile {
        byExam = Map.copyOf(byExam);
        remarks = Map.copyOf(remarks);
    }

    /** Poses of which nobody said who set them. */
    public PoseFile(String source, Map<String, RigidTransform> byExam) {
        this(source, byExam, Map.of());
    }

    /** The pose of an exam by its label or its series, if one was given. */
    Optional<RigidTransform> of(String label, String seriesUid) {
        return Optional.ofNullable(byExam.getOrDefault(label, byExam.get(seriesUid)));
    }

    /** Where the pose of an exam comes from, in words. */
    String sourceOf(String label, String seriesUid) {
        Remark remark = remarks.get(byExam.containsKey(label) ? label : seriesUid);
        return source + (remark == null ? "" : remark.words());
    }

    /** The same with the pose of an exam set anew. */
    public PoseFile with(String exam, RigidTransform referenceToExam, Remark remark) {
        Map<String, RigidTransform> more = new LinkedHashMap<>(byExam);
        more.put(exam, referenceToExam);
        Map<String, Remark> said = new LinkedHashMap<>(remarks);
        said.put(exam, remark);
        return new PoseFile(source, more, said);
    }

    /** The same without a pose of an exam, which is registered again. */
    public PoseFile without(String exam) {
        Map<String, RigidTransform> fewer = new LinkedHashMap<>(byExam);
        fewer.remove(exam);
        Map<String, Remark> said = new LinkedHashMap<>(remarks);
        said.remove(exam);
        return new PoseFile(source, fewer, said);
    }

    /**
     * Writes the document, exams in alphabetical order.
     *
     * @throws UseCaseException if the file cannot be written
     */
    public void write(Path file) throws UseCaseException {
        ObjectNode root = JsonDocument.empty();
        ArrayNode poses = root.putArray("poses");
        byExam.keySet().stream().sorted().forEach(exam -> {
            ObjectNode node = poses.addObject();
            node.put("exam", exam);
            ArrayNode matrix = node.putArray("referenceToExam");
            for (double value : byExam.get(exam).toMatrix()) {
                matrix.add(value);
            }
            Remark remark = remarks.getOrDefault(exam, new Remark("", "", ""));
            putUnlessEmpty(node, "by", remark.by());
            putUnlessEmpty(node, "on", remark.on());
            putUnlessEmpty(node, "why", remark.why());
        });
        try {
            Files.writeString(file, JsonDocument.text(root), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UseCaseException(file + ": cannot be written: " + FileFailure.words(e), e);
        }
    }

    private static void putUnlessEmpty(ObjectNode node, String name, String text) {
        if (!text.isEmpty()) {
            node.put(name, text);
        }
    }

    /** Poses of a subject's folder; none if it has no such document. */
    static PoseFile ofSubject(Path folder) throws UseCaseException {
        Path file = folder.resolve(DOCUMENT);
        return Files.exists(file) ? read(file) : new PoseFile(sourceIn(file), Map.of());
    }

    /**
     * Reads a document.
     *
     * @throws UseCaseException if it is not such a document; names file and field
     */
    public static PoseFile read(Path file) throws UseCaseException {
        JsonNode root = JsonFile.read(file);
        JsonNode poses = root.path("poses");
        if (!poses.isArray()) {
            throw new UseCaseException(file + ": poses: expected an array, found " + JsonFile.found(poses));
        }
        Map<String, RigidTransform> byExam = new LinkedHashMap<>();
        Map<String, Remark> remarks = new LinkedHashMap<>();
        for (int n = 0; n < poses.size(); n++) {
            JsonNode entry = poses.get(n);
            String field = file + ": poses[" + n + "]";
            JsonNode exam = entry.path("exam");
            if (!exam.isTextual()) {
                throw new UseCaseException(
                        field + ".exam: expected a label or SeriesInstanceUID, found " + JsonFile.found(exam));
            }
            RigidTransform pose = pose(entry.path("referenceToExam"), field + ".referenceToExam");
            if (byExam.put(exam.asText(), pose) != null) {
                throw new UseCaseException(field + ".exam: a second pose of " + exam);
            }
            remarks.put(
                    exam.asText(),
                    new Remark(
                            entry.path("by").asText(""),
                            entry.path("on").asText(""),
                            entry.path("why").asText("")));
        }
        return new PoseFile(root.path("poseSource").asText(sourceIn(file)), byExam, remarks);
    }

    private static String sourceIn(Path file) {
        return "pose given in " + file.getFileName();
    }

    private static RigidTransform pose(JsonNode numbers, String field) throws UseCaseException {
        if (!numbers.isArray() || numbers.size() != MATRIX) {
            throw new UseCaseException(field + ": expected 16 numbers, row by row, found "
                    + (numbers.isArray() ? numbers.size() + " entries" : JsonFile.found(numbers)));
        }
        double[] matrix = new double[MATRIX];
        for (int n = 0; n < matrix.length; n++) {
            if (!numbers.get(n).isNumber()) {
                throw new UseCaseException(field + "[" + n + "]: expected a number, found " + numbers.get(n));
            }
            matrix[n] = numbers.get(n).doubleValue();
        }
        try {
            return RigidTransform.ofMatrix(matrix);
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(field + ": " + e.getMessage(), e);
        }
    }
}
