package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/**
 * Metal that lies otherwise than on the reference exam, so that streaks differ and HU beside it cannot be compared. Streaks
 * cancel in a difference only where all metal near by kept its place. Immutable.
 *
 * @param ofPart why the whole face cannot be compared; empty if its own part kept its place in the construct
 * @param movedParts other parts that moved, on the reference exam; only those whose distance can be told
 * @param breaks places of breaks, on the reference exam
 * @param withinMm what lies nearer to a moved part or a break cannot be compared
 */
public record Disturbance(Optional<String> ofPart, List<Shape> movedParts, List<PatientPoint> breaks, double withinMm) {

    public Disturbance {
        movedParts = List.copyOf(movedParts);
        breaks = List.copyOf(breaks);
    }

    /** Nothing moved as far as is known. */
    public static Disturbance none() {
        return new Disturbance(Optional.empty(), List.of(), List.of(), 0);
    }

    /**
     * What moved in an exam.
     *
     * @param construct the construct on its reference exam
     * @param component the part whose face is compared
     * @param poses poses of the exam
     * @param continuity rods and screws of the exam, as far as they were followed
     */
    public static Disturbance of(
            Construct construct,
            Component component,
            ExamPoses poses,
            Collection<Continuity> continuity,
            MeasurementSettings settings) {
        Optional<String> own = Optional.empty();
        List<Shape> moved = new ArrayList<>();
        for (Component part : construct.components()) {
            Optional<ExamPoses.PartPose> pose =
                    Optional.ofNullable(poses.parts().get(part.id())).flatMap(Answer::value);
            if (pose.isEmpty() || !isBeyond(pose.get(), settings.change())) {
                continue;
            }
            if (part.id().equals(component.id())) {
                own = Optional.of(String.format(
                        Locale.ROOT,
                        "%s moved by %.2f mm and %.2f° within the construct: streaks are others",
                        part.label(),
                        pose.get().motionMm(),
                        pose.get().motionDeg()));
            } else if (part.shape().hasDistance()) {
                moved.add(part.shape());
            }
        }
        RigidTransform toReference = poses.construct().referenceToExam().inverse();
        List<PatientPoint> breaks = continuity.stream()
                .flatMap(c -> c.breaks().stream())
                .map(b -> toReference.apply(b.pointMm()))
                .toList();
        return new Disturbance(own, moved, breaks, settings.change().disturbedWithinMm());
    }

    private static boolean isBeyond(ExamPoses.PartPose pose, ChangeSettings limits) {
        return pose.motionMm() > limits.maxMotionMm() || pose.motionDeg() > limits.maxMotionDeg();
    }

    /** Whether a sample lies so near to what moved or broke that it cannot be compared. */
    boolean isNear(PatchSample sample) {
        return movedParts.stream().anyMatch(s -> s.signedDistanceMm(sample.point()) < withinMm)
                || breaks.stream().anyMatch(b -> b.distanceTo(sample.point()) < withinMm);
    }
}
