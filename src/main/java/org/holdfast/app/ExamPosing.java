package org.holdfast.app;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.FoundPose;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PoseFinder;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/** Finds where a construct lies in a subject's exams, the reference exam first: by registration, or as set by hand. */
final class ExamPosing {

    /** Rounding of a written matrix, degrees and mm: a pose this near to none is none. */
    private static final double NO_MOTION = 1e-9;

    private static final String REFERENCE_SET_BY_HAND =
            "the reference exam's own pose was set by hand, so that nothing can be registered to it; set this exam's too";

    private final Construct construct;
    private final MeasurementSettings settings;
    private final PoseFile given;
    private Optional<PoseFinder> finder = Optional.empty();

    ExamPosing(Construct construct, MeasurementSettings settings, PoseFile given) {
        this.construct = construct;
        this.settings = settings;
        this.given = given;
    }

    /**
     * Where the construct, its parts and bones lie in an exam.
     *
     * @param poses the poses, or why none is known
     * @param source where the construct's pose comes from, in words
     * @param findings what a person should know about it
     */
    record Posed(Answer<ExamPoses> poses, String source, List<Finding> findings) {}

    /** The poses of the reference exam; keeps what the others are registered to. */
    Posed ofReference(OpenedExam exam, HuVolume volume, Progress progress) {
        Optional<RigidTransform> pose = given.of(exam.label(), exam.seriesUid());
        if (pose.isPresent() && !isIdentity(pose.get())) {
            return new Posed(
                    Answer.of(ExamPoses.given(pose.get(), PoseKind.NUDGED, "the pose was given")),
                    source(exam),
                    List.of(setByHand(exam)));
        }
        finder = Optional.of(PoseFinder.of(construct, volume, settings, progress));
        Answer<ExamPoses> still = Answer.of(PoseFinder.ofReference(construct));
        if (exam.seriesUid().equals(construct.referenceSeriesUid())) {
            return new Posed(still, "reference exam", List.of());
        }
        if (pose.isPresent()) {
            return new Posed(still, source(exam), List.of(setByHand(exam)));
        }
        String frame = exam.stack().frameOfReferenceUid();
        if (!frame.isEmpty() && frame.equals(construct.frameOfReferenceUid())) {
            return new Posed(still, "same frame of reference as the construct", List.of());
        }
        Finding note = Finding.warning(
                "POSE_ASSUMED",
                "The exam is not the one on which the construct was laid out, which is not among the exams: it is measured"
                        + " as if the patient lay in the same place, which is seldom so. Look at the edges found.",
                exam.label());
        return new Posed(still, "assumed: same place as in the exam of the construct", List.of(note));
    }

    /** The poses of a later exam. */
    Posed of(OpenedExam exam, HuVolume volume, Progress progress) {
        Optional<RigidTransform> pose = given.of(exam.label(), exam.seriesUid());
        if (finder.isEmpty()) {
            return pose.isPresent()
                    ? new Posed(
                            Answer.of(ExamPoses.given(pose.get(), PoseKind.NUDGED, "the pose was given")),
                            source(exam),
                            List.of(setByHand(exam)))
                    : refused(exam, REFERENCE_SET_BY_HAND);
        }
        Answer<ExamPoses> found = finder.get().find(volume, pose, progress);
        if (found.value().isEmpty()) {
            return refused(exam, found.why());
        }
        return pose.isPresent()
                ? new Posed(found, source(exam), List.of(setByHand(exam)))
                : new Posed(found, words(found.value().get().construct()), List.of());
    }

    private static Posed refused(OpenedExam exam, String why) {
        return new Posed(
                Answer.not("registration refused: " + why),
                "registration refused: " + why,
                List.of(Finding.warning(
                        "POSE_REFUSED",
                        "Where the construct lies in this exam could not be found, so nothing is measured in it: " + why
                                + ". It can be set by hand.",
                        exam.label())));
    }

    private static String words(FoundPose pose) {
        OptionalDouble residual = pose.residualMm().value();
        return "registered on the construct's metal"
                + (residual.isPresent()
                        ? String.format(Locale.ROOT, ", residual %.3f mm", residual.getAsDouble())
                        : "");
    }

    private String source(OpenedExam exam) {
        return given.sourceOf(exam.label(), exam.seriesUid());
    }

    private Finding setByHand(OpenedExam exam) {
        return Finding.warning(
                "POSE_GIVEN",
                "The construct's pose was not measured: " + source(exam) + ". It is only as good as that source.",
                exam.label());
    }

    private static boolean isIdentity(RigidTransform pose) {
        return pose.rotationAngleDeg() <= NO_MOTION && pose.translationMm().norm() <= NO_MOTION;
    }
}
