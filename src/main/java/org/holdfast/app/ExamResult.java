package org.holdfast.app;

import java.util.List;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
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
 * @param poseKind where the pose comes from
 * @param poseSource the same in words
 * @param referenceToExam the pose
 * @param pointSpread blur of the scan as it was taken
 * @param parts one an interface, in the construct's order
 * @param findings what a person should know about this exam
 */
public record ExamResult(
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

    /** Code of intake's finding about images compressed with loss. */
    private static final String LOSSY = "LOSSY";

    public ExamResult {
        comparability = List.copyOf(comparability);
        parts = List.copyOf(parts);
        findings = List.copyOf(findings);
    }

    /** Whether its images were compressed with loss. */
    boolean isLossy() {
        return findings.stream().anyMatch(finding -> finding.code().equals(LOSSY));
    }
}
