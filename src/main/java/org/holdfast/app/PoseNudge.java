package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.holdfast.finding.FileFailure;
import org.holdfast.geometry.RigidTransform;

/**
 * Use case: poses that a person set by hand, kept in {@code poses.json} of a subject's folder so that the next measurement
 * uses them and says so. The document is a {@link PoseFile}.
 */
public final class PoseNudge {

    /** Name of the document in a subject's folder. */
    public static final String DOCUMENT = "poses.json";
    /** What such a pose is called wherever it is used. */
    public static final String SOURCE = "nudged by hand";

    private PoseNudge() {}

    /**
     * The poses that were set by hand, by label of the exam; none if there is no such document.
     *
     * @throws UseCaseException if the document is damaged; names file and field
     */
    public static Map<String, RigidTransform> read(Path folder) throws UseCaseException {
        Path file = folder.resolve(DOCUMENT);
        return Files.exists(file) ? PoseFile.read(file).byExam() : Map.of();
    }

    /**
     * Keeps the poses set by hand in place of earlier ones; none removes the document.
     *
     * @param byExam pose by label of the exam, from the reference exam's patient space to the exam's
     * @throws UseCaseException if the document cannot be written; the earlier one is then as it was
     */
    public static void write(Path folder, Map<String, RigidTransform> byExam) throws UseCaseException {
        Path file = folder.resolve(DOCUMENT);
        try {
            if (byExam.isEmpty()) {
                Files.deleteIfExists(file);
                return;
            }
            try (NewFiles files = new NewFiles(folder)) {
                Files.writeString(files.path(DOCUMENT), JsonDocument.text(document(byExam)), StandardCharsets.UTF_8);
                files.move(DOCUMENT);
            }
        } catch (IOException e) {
            throw new UseCaseException(file + ": cannot be written: " + FileFailure.words(e), e);
        }
    }

    private static ObjectNode document(Map<String, RigidTransform> byExam) {
        ObjectNode document = JsonDocument.empty();
        document.put("poseSource", SOURCE);
        ArrayNode poses = document.putArray("poses");
        new TreeMap<>(byExam).forEach((exam, pose) -> {
            ArrayNode numbers = poses.addObject().put("exam", exam).putArray("referenceToExam");
            for (double number : pose.toMatrix()) {
                numbers.add(number);
            }
        });
        return document;
    }
}
