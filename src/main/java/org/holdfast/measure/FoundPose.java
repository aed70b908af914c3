package org.holdfast.measure;

import java.util.Objects;
import org.holdfast.geometry.RigidTransform;

/**
 * A pose and how good it is.
 *
 * @param referenceToExam from patient space of the reference exam to that of the exam
 * @param kind where it comes from
 * @param residualMm root mean square distance of the inliers, mm
 * @param overlap share of the reference's points that lie inside the exam's image
 * @param inlierShare share of the points inside that fit
 */
public record FoundPose(
        RigidTransform referenceToExam, ExamScan.PoseKind kind, Stated residualMm, Stated overlap, Stated inlierShare) {

    public FoundPose {
        Objects.requireNonNull(referenceToExam, "referenceToExam");
        Objects.requireNonNull(kind, "kind");
    }

    /** A pose that was not measured. */
    public static FoundPose given(RigidTransform referenceToExam, ExamScan.PoseKind kind, String why) {
        return new FoundPose(referenceToExam, kind, Stated.not(why), Stated.not(why), Stated.not(why));
    }
}
