package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamResult;
import org.holdfast.desktop.state.Words;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.FoundPose;

/**
 * Where the construct lies in an exam as it is shown, and how that is known. Immutable.
 *
 * @param referenceToExam from the reference exam's patient space to the exam's
 * @param words how it is known, in few words; empty on the reference exam and before anything is known
 * @param detail the same in full
 * @param isSure whether it was found, or needs none: not set by hand, given or assumed
 */
public record ExamPose(RigidTransform referenceToExam, String words, String detail, boolean isSure) {

    /** Nothing is known yet. */
    public static final ExamPose UNKNOWN = new ExamPose(RigidTransform.IDENTITY, "", "", true);

    /**
     * The pose to show: set by hand, else the measured one, else what the exam's files say.
     *
     * @param nudged set by hand; empty if it was not
     * @param measured what was measured in the exam
     * @param facts what its files say
     */
    public static ExamPose of(
            Optional<RigidTransform> nudged, Optional<ExamResult> measured, Optional<ExamFacts> facts) {
        if (nudged.isPresent()) {
            return new ExamPose(nudged.get(), "nudged", "The pose was nudged by hand.", false);
        }
        return measured.map(ExamPose::of).or(() -> facts.map(ExamPose::of)).orElse(UNKNOWN);
    }

    private static ExamPose of(ExamResult result) {
        FoundPose pose = result.poses().construct();
        if (result.isReference()) {
            return new ExamPose(pose.referenceToExam(), "", "Reference exam: the construct was laid out on it.", true);
        }
        if (pose.kind() == PoseKind.REGISTERED) {
            return new ExamPose(pose.referenceToExam(), registered(pose), quality(pose), true);
        }
        return new ExamPose(
                pose.referenceToExam(),
                pose.kind() == PoseKind.NUDGED ? "pose given" : "not registered",
                "Not registered: " + result.poseSource() + ".",
                false);
    }

    private static ExamPose of(ExamFacts facts) {
        if (facts.isReference()) {
            return new ExamPose(facts.referenceToExam(), "", "Reference exam: the construct was laid out on it.", true);
        }
        String words = facts.poseKind() == PoseKind.NUDGED ? "pose given" : "not registered";
        return new ExamPose(facts.referenceToExam(), words, "Not registered: " + facts.poseSource() + ".", false);
    }

    private static String registered(FoundPose pose) {
        return "registered"
                + (pose.residualMm().value().isPresent()
                        ? ", residual "
                                + Words.quantity(pose.residualMm().value().getAsDouble(), 2, "mm")
                        : "");
    }

    private static String quality(FoundPose pose) {
        StringBuilder words = new StringBuilder("Registered");
        pose.residualMm().value().ifPresent(mm -> words.append(", residual ").append(Words.quantity(mm, 3, "mm")));
        pose.overlap().value().ifPresent(share -> words.append(", overlap ").append(Words.percent(share)));
        pose.inlierShare().value().ifPresent(share -> words.append(", inliers ").append(Words.percent(share)));
        return words.append('.').toString();
    }
}
