package org.holdfast.app;

import java.util.List;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.volume.Comparability.Difference;

/**
 * One exam of a contact report.
 *
 * @param label column label
 * @param seriesUid the measured series
 * @param seriesSha256 hash of its files
 * @param daysSinceSurgery exact day; empty if the exam is undated
 * @param isReference whether it is the reference exam
 * @param comparability how it differs from the reference exam in how it was made
 * @param poses where construct, parts and bones lie
 * @param poseSource where the construct's pose comes from, in words
 * @param pointSpread blur of the scan as it was taken
 * @param parts one an interface, in the construct's order
 * @param components one a component, in the construct's order; none where contact alone was asked for
 * @param findings what a person should know about this exam
 */
public record ExamResult(
        String label,
        String seriesUid,
        String seriesSha256,
        OptionalInt daysSinceSurgery,
        boolean isReference,
        List<Difference> comparability,
        ExamPoses poses,
        String poseSource,
        PointSpreadEstimate pointSpread,
        List<InterfaceExam> parts,
        List<ComponentExam> components,
        List<Finding> findings) {

    /** Code of intake's finding about images compressed with loss. */
    private static final String LOSSY = "LOSSY";

    public ExamResult {
        comparability = List.copyOf(comparability);
        parts = List.copyOf(parts);
        components = List.copyOf(components);
        findings = List.copyOf(findings);
    }

    /** An exam of which only contact was measured, at a pose that was not found by registration. */
    public ExamResult(
            String label,
            String seriesUid,
            String seriesSha256,
            OptionalInt daysSinceSurgery,
            boolean isReference,
            List<Difference> comparability,
            PoseKind poseKind,
            String poseSource,
            RigidTransform referenceToExam,
            PointSpreadEstimate pointSpread,
            List<InterfaceExam> parts,
            List<Finding> findings) {
        this(
                label,
                seriesUid,
                seriesSha256,
                daysSinceSurgery,
                isReference,
                comparability,
                ExamPoses.given(referenceToExam, poseKind, "the pose was not found by registration"),
                poseSource,
                pointSpread,
                parts,
                List.of(),
                findings);
    }

    /** Where the construct's pose comes from. */
    public PoseKind poseKind() {
        return poses.construct().kind();
    }

    /** The construct's pose: from patient space of the reference exam to that of the exam. */
    public RigidTransform referenceToExam() {
        return poses.construct().referenceToExam();
    }

    /** Whether its images were compressed with loss. */
    boolean isLossy() {
        return findings.stream().anyMatch(finding -> finding.code().equals(LOSSY));
    }
}
