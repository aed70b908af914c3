package org.holdfast.app;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.Stack;
import org.holdfast.intake.StackChoice;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.progress.Progress;

/**
 * An exam whose headers were read and whose stack was chosen. Immutable.
 *
 * @param argument the exam as it was named
 * @param stack the stack that is looked at and measured
 * @param findings what a person should know about it
 * @param days days since surgery; empty if the exam is undated
 * @param label column label
 */
record OpenedExam(ExamArgument argument, Stack stack, List<Finding> findings, OptionalInt days, String label) {

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
        findings = List.copyOf(findings);
    }

    String seriesUid() {
        return stack.seriesInstanceUid();
    }

    /**
     * Reads the headers of an exam's files.
     *
     * @throws UseCaseException if no stack in it can be measured; names the folder and why
     */
    static OpenedExam open(ExamArgument exam, Construct construct, Progress part) throws UseCaseException {
        IntakeReport report = Intake.scan(List.of(exam.folder()), part);
        StackChoice choice = StackChoice.of(report, exam.seriesUid());
        List<Finding> notes = new ArrayList<>(choice.findings());
        notes.addAll(report.unreadableFindings());
        if (choice.stack().isEmpty()) {
            String reasons = String.join(
                    "; ",
                    notes.stream()
                            .map(note -> (note.where().isEmpty() ? "" : note.where() + ": ") + note.text())
                            .toList());
            throw new UseCaseException(exam.folder() + ": " + reasons);
        }
        notes.addAll(report.findingsOf(choice.stack().get()));
        Optional<LocalDate> date = date(exam, choice.stack().get(), notes);
        OptionalInt days = date.isPresent()
                ? OptionalInt.of(ExamLabel.daysSince(construct.operationDate(), date.get()))
                : OptionalInt.empty();
        String label = exam.label().orElseGet(() -> ExamLabel.of(days));
        return new OpenedExam(exam, choice.stack().get(), notes, days, label);
    }

    /** Where the construct lies in this exam, by the poses given or by the exam's frame of reference. */
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
                    "The pose was not measured: " + poses.source() + ". It is only as good as that source.",
                    label);
            return new Pose(pose, kind, poses.source(), List.of(note));
        }
        String frame = stack.frameOfReferenceUid();
        if (!frame.isEmpty() && frame.equals(construct.frameOfReferenceUid())) {
            return new Pose(pose, kind, "same frame of reference as the reference exam", List.of());
        }
        Finding note = Finding.warning(
                "POSE_ASSUMED",
                "The exam has another frame of reference than the construct and no pose was given: it is measured as if"
                        + " the patient lay in the same place, which is seldom so. Look at the edges found.",
                label);
        return new Pose(pose, kind, "assumed: same place as in the reference exam", List.of(note));
    }

    /** The day by the files, else the one given beside them. */
    private static Optional<LocalDate> date(ExamArgument exam, Stack stack, List<Finding> notes) {
        Optional<LocalDate> scanned = stack.acquisition().date();
        if (exam.date().isPresent() && scanned.isPresent() && !scanned.equals(exam.date())) {
            notes.add(Finding.warning(
                    "DATE_DIFFERS",
                    "The files say that the exam was made on " + scanned.get() + ", the subject's document says "
                            + exam.date().get() + "; the files' day is taken.",
                    exam.folder().toString()));
        }
        if (exam.date().isPresent() && scanned.isEmpty()) {
            notes.add(Finding.info(
                    "DATE_GIVEN",
                    "The day of the exam is the subject's document's: "
                            + exam.date().get(),
                    exam.folder().toString()));
        }
        return scanned.or(exam::date);
    }

    private static boolean isIdentity(RigidTransform pose) {
        return pose.rotationAngleDeg() <= NO_MOTION && pose.translationMm().norm() <= NO_MOTION;
    }
}
