package org.holdfast.measure;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.holdfast.geometry.RigidTransform;

/**
 * Where the construct, its parts and its bones lie in one exam, all from patient space of the reference exam. Immutable.
 *
 * @param construct pose of all metal, for cutting
 * @param groups ids of the components that moved as one, in the construct's order
 * @param parts pose of each component by id, or why it was not found
 * @param bones pose of each bone by id, or why it was not found
 */
public record ExamPoses(
        FoundPose construct,
        List<Set<String>> groups,
        Map<String, Answer<PartPose>> parts,
        Map<String, Answer<FoundPose>> bones) {

    public ExamPoses {
        groups = groups.stream()
                .map(group -> Collections.unmodifiableSet(new LinkedHashSet<>(group)))
                .toList();
        parts = Map.copyOf(parts);
        bones = Map.copyOf(bones);
    }

    /**
     * A component's own pose.
     *
     * @param pose where it lies
     * @param motionMm how far its middle lies from where the construct's pose puts it, mm
     * @param motionDeg how far it is turned against the construct's pose, degrees
     * @param undetermined which of its motions the part's surface does not show (a smooth screw spins), in words; there it
     *     keeps its group's pose; empty where all six degrees of freedom are shown
     */
    public record PartPose(FoundPose pose, double motionMm, double motionDeg, String undetermined) {

        public PartPose {
            Objects.requireNonNull(pose, "pose");
            Objects.requireNonNull(undetermined, "undetermined");
        }

        /** A pose in which all six degrees of freedom are shown. */
        public PartPose(FoundPose pose, double motionMm, double motionDeg) {
            this(pose, motionMm, motionDeg, "");
        }
    }

    /** Everything at one pose that was given. */
    public static ExamPoses given(RigidTransform referenceToExam, ExamScan.PoseKind kind, String why) {
        return new ExamPoses(FoundPose.given(referenceToExam, kind, why), List.of(), Map.of(), Map.of());
    }

    /** Pose of a component: its own where it was found, else the construct's. */
    public RigidTransform ofPart(String componentId) {
        Answer<PartPose> part = parts.get(componentId);
        return part == null || part.value().isEmpty()
                ? construct.referenceToExam()
                : part.value().get().pose().referenceToExam();
    }
}
