package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.FoundPose;
import org.holdfast.measure.PointSpreadEstimate;

/** Poses and blur of an exam in a report's document. */
final class PoseNodes {

    private static final String POSE = "pose";

    private PoseNodes() {}

    /** The construct's pose, and those of its parts and bones. */
    static void put(ObjectNode node, ExamResult exam) {
        ExamPoses poses = exam.poses();
        if (exam.poseKind() == PoseKind.REFUSED) {
            JsonDocument.absent(node, POSE, exam.poseSource());
            return;
        }
        ObjectNode pose = node.putObject(POSE);
        pose.put("kind", exam.poseKind().name().toLowerCase(Locale.ROOT));
        pose.put("source", exam.poseSource());
        found(pose, poses.construct());
        ArrayNode groups = pose.putArray("groups");
        poses.groups().forEach(group -> group.stream().sorted().forEach(groups.addArray()::add));
        ObjectNode parts = pose.putObject("parts");
        for (Map.Entry<String, Answer<ExamPoses.PartPose>> entry : new TreeMap<>(poses.parts()).entrySet()) {
            part(parts, entry.getKey(), entry.getValue());
        }
        ObjectNode bones = pose.putObject("bones");
        for (Map.Entry<String, Answer<FoundPose>> entry : new TreeMap<>(poses.bones()).entrySet()) {
            if (entry.getValue().value().isPresent()) {
                found(bones.putObject(entry.getKey()), entry.getValue().value().get());
            } else {
                JsonDocument.absent(bones, entry.getKey(), entry.getValue().why());
            }
        }
    }

    private static void part(ObjectNode parts, String id, Answer<ExamPoses.PartPose> answer) {
        if (answer.value().isEmpty()) {
            JsonDocument.absent(parts, id, answer.why());
            return;
        }
        ExamPoses.PartPose part = answer.value().get();
        ObjectNode node = parts.putObject(id);
        found(node, part.pose());
        node.put("motionMm", part.motionMm());
        node.put("motionDeg", part.motionDeg());
        node.put("undetermined", part.undetermined());
    }

    private static void found(ObjectNode node, FoundPose pose) {
        matrix(node.putArray("referenceToExam"), pose.referenceToExam());
        JsonDocument.stated(node, "residualMm", pose.residualMm());
        JsonDocument.stated(node, "overlap", pose.overlap());
        JsonDocument.stated(node, "inlierShare", pose.inlierShare());
    }

    private static void matrix(ArrayNode array, RigidTransform pose) {
        for (double value : pose.toMatrix()) {
            array.add(value);
        }
    }

    /** The blur of the scan and how well it is known. */
    static void pointSpread(ObjectNode node, PointSpreadEstimate spread) {
        node.put("sigmaInPlaneMm", spread.sigmaInPlaneMm());
        node.put("sigmaAlongTableMm", spread.sigmaAlongTableMm());
        node.put("source", spread.source().name());
        JsonDocument.stated(node, "residualHu", spread.residualHu());
        JsonDocument.stated(node, "seMm", spread.seMm());
        node.put("note", spread.note());
    }
}
