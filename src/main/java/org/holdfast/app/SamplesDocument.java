package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.ConstructJson;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability.Difference;

/**
 * What {@code results/contact.json} leaves out and a review needs back: the construct as measured, and what was read at
 * every sample of every face. Carries the hash of the document it belongs to, so that files of two runs are not mixed.
 */
final class SamplesDocument {

    static final int FORMAT_VERSION = 1;
    /** Bits of a sample's last number. */
    static final int OPPOSITE_HOST_BONE = 1;

    static final int BRIDGED = 2;

    private SamplesDocument() {}

    /**
     * The document as text.
     *
     * @param contactSha256 hash of the contact document's bytes
     */
    static String write(ContactReport report, String contactSha256) {
        ObjectNode root = JsonDocument.empty();
        root.put("caution", Caution.TEXT);
        root.put("software", Software.running().toString());
        root.put("formatVersion", FORMAT_VERSION);
        root.put("contactSha256", contactSha256);
        root.put("construct", ConstructJson.write(report.construct()));
        ArrayNode exams = root.putArray("exams");
        for (ExamResult exam : report.exams()) {
            ObjectNode node = exams.addObject();
            node.put("label", exam.label());
            ArrayNode names = node.putArray("comparabilityNames");
            exam.comparability().stream().map(Difference::name).forEach(names::add);
            ArrayNode parts = node.putArray("parts");
            exam.parts().forEach(part -> part(parts.addObject(), part));
        }
        return JsonDocument.line(root);
    }

    private static void part(ObjectNode node, InterfaceExam part) {
        node.put("id", part.face().id());
        Optional<ThresholdContact> contact = part.contact();
        if (contact.isEmpty()) {
            node.putNull("byThreshold");
            return;
        }
        ObjectNode known = node.putObject("byThreshold");
        known.put("low", contact.get().low());
        known.put("high", contact.get().high());
        known.put("limitSettled", contact.get().isLimitSettled());
        ArrayNode samples = known.putArray("samples");
        contact.get().readings().forEach(reading -> sample(samples.addArray(), reading));
    }

    /** Tissue, obstacle, edge, plateau, gap, host, beyond the guard, flags. */
    private static void sample(ArrayNode row, SampleReading reading) {
        row.add(reading.tissue().name());
        row.add(reading.obstacle().map(Enum::name).orElse(null));
        add(row, reading.edgeMm());
        add(row, reading.plateauHu());
        add(row, reading.gapMm());
        add(row, reading.hostHu());
        add(row, reading.beyondGuardHu());
        row.add((reading.isOppositeHostBone() ? OPPOSITE_HOST_BONE : 0) + (reading.isBridged() ? BRIDGED : 0));
    }

    private static void add(ArrayNode row, OptionalDouble value) {
        if (value.isPresent()) {
            row.add(value.getAsDouble());
        } else {
            row.addNull();
        }
    }
}
