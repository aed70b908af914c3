package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** A subject's document as it is written: made anew, or with exams added to what is there. Not thread-safe. */
final class SubjectDocument {

    /** Name of the document that says what was implanted. */
    static final String CONSTRUCT = "construct.json";

    private final ObjectNode tree;

    private SubjectDocument(ObjectNode tree) {
        this.tree = tree;
    }

    /** A document without exams yet. */
    static SubjectDocument of(String code, LocalDate surgeryDate, Optional<String> shiftMark) {
        ObjectNode tree = JsonDocument.empty();
        tree.put("code", code);
        tree.put("surgeryDate", surgeryDate.toString());
        tree.put("construct", CONSTRUCT);
        shiftMark.ifPresent(mark -> tree.put("datesShifted", mark));
        tree.putArray("exams");
        return new SubjectDocument(tree);
    }

    /**
     * The document that is there, whatever else it says.
     *
     * @throws UseCaseException if it is damaged
     */
    static SubjectDocument read(Path file) throws UseCaseException {
        JsonNode root = JsonFile.read(file);
        if (!root.isObject() || !root.path("exams").isArray()) {
            throw new UseCaseException(file + ": expected a subject's document, found " + JsonFile.found(root));
        }
        return new SubjectDocument((ObjectNode) root);
    }

    /**
     * Adds an exam.
     *
     * @param folder folder with its files as the document names it
     * @param series its series; their folders as the document names them
     */
    void add(String label, String folder, LocalDate date, List<Series> series) {
        ObjectNode exam = ((ArrayNode) tree.get("exams")).addObject();
        exam.put("label", label).put("folder", folder).put("date", date.toString());
        ArrayNode list = exam.putArray("series");
        for (Series each : series) {
            list.addObject()
                    .put("seriesUid", each.seriesUid())
                    .put("role", each.role().written())
                    .put("folder", each.folder())
                    .put("why", each.why());
        }
    }

    /** One series as the document names it. */
    record Series(String seriesUid, SeriesRole role, String folder, String why) {}

    /** The document as text. */
    String text() {
        return JsonDocument.text(tree) + "\n";
    }
}
