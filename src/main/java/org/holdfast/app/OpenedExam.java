package org.holdfast.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.intake.RadiographFile;
import org.holdfast.intake.Stack;
import org.holdfast.measure.ExamScan.PoseKind;

/**
 * An exam whose headers were read and whose stack was chosen. Immutable.
 *
 * @param argument the exam as it was named
 * @param stack the stack that is looked at and measured
 * @param filmsBeside radiographs of the same exam
 * @param findings what a person should know about it
 * @param days days since surgery; empty if the exam is undated
 * @param label column label
 */
record OpenedExam(
        ExamArgument argument,
        Stack stack,
        List<RadiographFile> filmsBeside,
        List<Finding> findings,
        OptionalInt days,
        String label)
        implements Opened {

    /** Rounding of a written matrix, degrees and mm: a pose this near to none is none. */
    private static final double NO_MOTION = 1e-9;

    /**
     * Where the construct lies in an exam.
     *
     * @param referenceToExam the pose
     * @param kind where it comes from
     * @param source the same in words
     * @param findings what a person should know about it
     */
    record Pose(RigidTransform referenceToExam, PoseKind kind, String source, List<Finding> findings) {}

    OpenedExam {
        filmsBeside = List.copyOf(filmsBeside);
        findings = List.copyOf(findings);
    }

    @Override
    public Path firstFile() {
        return stack.slices().get(0).path();
    }

    String seriesUid() {
        return stack.seriesInstanceUid();
    }

    /** Where the construct is looked for before the exam is measured: by the poses given, or the frame of reference. */
    Pose pose(Construct construct, PoseFile poses) {
        Optional<RigidTransform> given = poses.of(label, seriesUid());
        PoseKind kind = given.isPresent() && !isIdentity(given.get()) ? PoseKind.NUDGED : PoseKind.IDENTITY;
        RigidTransform pose = given.orElse(RigidTransform.IDENTITY);
        boolean isConstructs = seriesUid().equals(construct.referenceSeriesUid());
        if (isConstructs && given.map(OpenedExam::isIdentity).orElse(true)) {
            return new Pose(pose, kind, "reference exam", List.of());
        }
        if (given.isPresent()) {
            Finding note = Finding.warning(
                    "POSE_GIVEN",
                    "The pose was not measured: " + poses.sourceOf(label, seriesUid())
                            + ". It is only as good as that source.",
                    label);
            return new Pose(pose, kind, poses.sourceOf(label, seriesUid()), List.of(note));
        }
        String frame = stack.frameOfReferenceUid();
        if (!frame.isEmpty() && frame.equals(construct.frameOfReferenceUid())) {
            return new Pose(pose, kind, "same frame of reference as the reference exam", List.of());
        }
        Finding note = Finding.warning(
                "POSE_ASSUMED",
                "The exam has another frame of reference than the construct: until it is measured, which registers it, it is"
                        + " shown as if the patient lay in the same place.",
                label);
        return new Pose(pose, kind, "not registered yet: shown as if in the same place", List.of(note));
    }

    private static boolean isIdentity(RigidTransform pose) {
        return pose.rotationAngleDeg() <= NO_MOTION && pose.translationMm().norm() <= NO_MOTION;
    }
}
