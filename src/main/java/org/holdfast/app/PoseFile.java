package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.holdfast.geometry.RigidTransform;

/**
 * Poses given from outside, one an exam: a JSON document with {@code poses [{exam, referenceToExam [16 numbers]}]}, where
 * {@code exam} is an exam's label or its SeriesInstanceUID. Other fields are left alone, so that a simulation's truth
 * document can be given as it is. Until registration exists this is how an exam in another position is measured.
 *
 * @param source where the poses come from, in words
 * @param byExam the pose of each exam
 * @param ownSources where the pose of an exam comes from, where it is not {@code source}
 */
public record PoseFile(String source, Map<String, RigidTransform> byExam, Map<String, String> ownSources) {

    /** No poses are given. */
    public static final PoseFile NONE = new PoseFile("", Map.of());

    public PoseFile {
        byExam = Map.copyOf(byExam);
        ownSources = Map.copyOf(ownSources);
    }

    /** Poses that all have one source. */
    public PoseFile(String source, Map<String, RigidTransform> byExam) {
        this(source, byExam, Map.of());
    }

    /** The pose of an exam by its label or its series, if one was given. */
    Optional<RigidTransform> of(String label, String seriesUid) {
        return Optional.ofNullable(byExam.getOrDefault(label, byExam.get(seriesUid)));
    }

    /** The same poses, but for exams of which another source has a pose. */
    PoseFile overriddenBy(Map<String, RigidTransform> others, String othersSource) {
        if (others.isEmpty()) {
            return this;
        }
        Map<String, RigidTransform> all = new LinkedHashMap<>(byExam);
        all.putAll(others);
        Map<String, String> sources = new LinkedHashMap<>(ownSources);
        others.keySet().forEach(exam -> sources.put(exam, othersSource));
        return new PoseFile(source, all, sources);
    }

    /** Where the pose of an exam comes from, in words. */
    String sourceOf(String label, String seriesUid) {
        return ownSources.getOrDefault(label, ownSources.getOrDefault(seriesUid, source));
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
        for (int n = 0; n < poses.size(); n++) {
            String field = file + ": poses[" + n + "]";
            JsonNode exam = poses.get(n).path("exam");
            if (!exam.isTextual()) {
                throw new UseCaseException(
                        field + ".exam: expected a label or SeriesInstanceUID, found " + JsonFile.found(exam));
            }
            RigidTransform pose = pose(poses.get(n).path("referenceToExam"), field + ".referenceToExam");
            if (byExam.put(exam.asText(), pose) != null) {
                throw new UseCaseException(field + ".exam: a second pose of " + exam);
            }
        }
        String source = root.path("poseSource").asText("pose given in " + file.getFileName());
        return new PoseFile(source, byExam);
    }

    private static RigidTransform pose(JsonNode numbers, String field) throws UseCaseException {
        if (!numbers.isArray() || numbers.size() != 16) {
            throw new UseCaseException(field + ": expected 16 numbers, row by row, found "
                    + (numbers.isArray() ? numbers.size() + " entries" : JsonFile.found(numbers)));
        }
        double[] matrix = new double[16];
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
