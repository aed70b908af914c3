package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import org.holdfast.app.ExamResult;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;

/** Whether the numbers of an exam were measured at another pose than the one that is set by hand now. */
final class MovedPose {

    /** What the rounding of a written matrix makes, mm and degrees. */
    private static final double SAME = 1e-6;

    private MovedPose() {}

    /** Why the numbers are old; empty if they are not. */
    static Optional<String> since(Optional<RigidTransform> nudged, ExamResult measured) {
        if (nudged.isPresent()) {
            return isSame(nudged.get(), measured.referenceToExam())
                    ? Optional.empty()
                    : Optional.of("the pose was nudged after it was measured");
        }
        return measured.poseKind() == PoseKind.NUDGED
                ? Optional.of("measured at a pose set by hand, which was taken back")
                : Optional.empty();
    }

    private static boolean isSame(RigidTransform a, RigidTransform b) {
        RigidTransform between = a.then(b.inverse());
        return between.rotationAngleDeg() <= SAME && between.translationMm().norm() <= SAME;
    }
}
