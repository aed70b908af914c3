package org.holdfast.app;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * What the files of an exam say; before any pixel is read, and what reading them added. Immutable.
 *
 * @param seriesUid the series that is looked at and measured
 * @param grid where its voxels lie
 * @param acquisition how it was made
 * @param daysSinceSurgery days from the operation, by the files or the subject's document; empty if undated
 * @param isReference whether the construct was laid out on it
 * @param referenceToExam moves the construct to where it is in this exam
 * @param poseKind where the pose comes from
 * @param poseSource the same in words
 * @param findings what a person should know about it
 */
public record ExamFacts(
        String seriesUid,
        VolumeGrid grid,
        Acquisition acquisition,
        OptionalInt daysSinceSurgery,
        boolean isReference,
        RigidTransform referenceToExam,
        PoseKind poseKind,
        String poseSource,
        List<Finding> findings) {

    public ExamFacts {
        findings = List.copyOf(findings);
    }

    /** The same with what else was found out, each finding once. */
    ExamFacts withFindings(List<Finding> more) {
        Set<Finding> all = new LinkedHashSet<>(findings);
        all.addAll(more);
        return new ExamFacts(
                seriesUid,
                grid,
                acquisition,
                daysSinceSurgery,
                isReference,
                referenceToExam,
                poseKind,
                poseSource,
                List.copyOf(all));
    }
}
