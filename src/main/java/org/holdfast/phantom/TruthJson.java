package org.holdfast.phantom;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.holdfast.geometry.PatientPoint;

/** The demo subject's truth as a JSON tree; lengths mm, angles degrees, fractions 0 to 1, LPS. */
public final class TruthJson {

    /** Says what these numbers are. */
    public static final String NOTE = "Simulation truth of an invented subject: these values were read from the scenes"
            + " that were scanned, nothing was measured on images. referenceToExam (4×4, row-major, LPS mm) is the true"
            + " pose of the construct: of the body, the cranial vertebra, its screws and the unbroken rods. The caudal"
            + " vertebra moves towards the body by intoBoneMm on top of it. The simulation has no beam hardening,"
            + " scatter, streaks or motion.";

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private TruthJson() {}

    /** The tree: {@code note, poseSource, poses [{exam, referenceToExam}], exams [{label, interfaces, screws, breaks,
     * migration}]}. */
    public static ObjectNode tree(DemoTruth truth) {
        ObjectNode root = NODES.objectNode();
        root.put("note", NOTE);
        root.put("poseSource", "truth of the simulation");
        ArrayNode poses = root.putArray("poses");
        truth.exams().forEach(exam -> poses.addObject()
                .put("exam", exam.label())
                .set("referenceToExam", numbers(exam.referenceToExam().toMatrix())));
        ArrayNode exams = root.putArray("exams");
        truth.exams().forEach(exam -> exams.add(exam(exam)));
        return root;
    }

    private static ObjectNode exam(DemoTruth.ExamTruth exam) {
        ObjectNode node = NODES.objectNode();
        node.put("label", exam.label());
        ArrayNode faces = node.putArray("interfaces");
        exam.interfaces().forEach(face -> faces.add(face(face)));
        ArrayNode screws = node.putArray("screws");
        exam.screws().forEach(screw -> screws.addObject()
                .put("id", screw.id())
                .put("meanZoneMm", screw.meanZoneMm())
                .put("widestZoneMm", screw.widestZoneMm()));
        ArrayNode breaks = node.putArray("breaks");
        for (DemoTruth.BreakTruth broken : exam.breaks()) {
            ObjectNode item = breaks.addObject();
            item.put("component", broken.component());
            item.put("atMm", broken.atMm());
            item.set("pointMm", point(broken.point()));
            item.put("gapAlongAxisMm", broken.gapAlongAxisMm());
        }
        ArrayNode migration = node.putArray("migration");
        for (DemoTruth.MigrationTruth moved : exam.migration()) {
            ObjectNode item = migration.addObject();
            item.put("component", moved.component());
            item.put("bone", moved.bone());
            item.set("translationMm", numbers(moved.translationMm()));
            item.set("rotationDeg", numbers(moved.rotationDeg()));
            item.put("intoBoneMm", moved.intoBoneMm());
        }
        return node;
    }

    private static ObjectNode face(DemoTruth.InterfaceTruth face) {
        ObjectNode node = NODES.objectNode();
        node.put("id", face.id());
        node.put("contactFraction", face.contactShare());
        node.put("meanGapMm", face.meanGapMm());
        node.put("widestGapMm", face.widestGapMm());
        ArrayNode under = node.putArray("fractionUnder");
        face.shareUnderMm()
                .forEach((limit, share) -> under.addObject().put("gapMm", limit).put("fraction", share));
        ObjectNode areas = node.putObject("areas");
        areas.set("uLinesMm", numbers(face.gaps().uLinesMm()));
        areas.set("vLinesMm", numbers(face.gaps().vLinesMm()));
        ArrayNode gaps = areas.putArray("gapMm");
        for (double[] row : face.gaps().gapsMm()) {
            gaps.add(numbers(row));
        }
        return node;
    }

    private static ArrayNode point(PatientPoint p) {
        return numbers(p.x(), p.y(), p.z());
    }

    private static ArrayNode numbers(List<Double> values) {
        return numbers(values.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static ArrayNode numbers(double... values) {
        ArrayNode node = NODES.arrayNode();
        for (double value : values) {
            node.add(value);
        }
        return node;
    }
}
