package org.holdfast.measure;

import java.util.Objects;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;

/**
 * One exam as a measurement needs it: the volume, how it was made, its blur, and where the construct lies in it.
 *
 * @param label the exam's column label
 * @param seriesUid SeriesInstanceUID of the measured series
 * @param seriesSha256 hash of the series' files, hex; part of a result's key
 * @param volume HU on their grid
 * @param acquisition how the stack was made
 * @param pointSpread blur of the scan
 * @param referenceToExam pose: from patient space of the reference exam to that of this exam
 * @param poseKind where the pose comes from
 */
public record ExamScan(
        String label,
        String seriesUid,
        String seriesSha256,
        HuVolume volume,
        Acquisition acquisition,
        PointSpreadEstimate pointSpread,
        RigidTransform referenceToExam,
        PoseKind poseKind) {

    /** Where a pose comes from. */
    public enum PoseKind {
        /** Found by registration. */
        REGISTERED,
        /** The reference exam itself, or no pose was given. */
        IDENTITY,
        /** Set or given from outside. */
        NUDGED,
        /** Registration refused to say where it lies; the pose is not known, and none stands in its place. */
        REFUSED
    }

    public ExamScan {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(seriesUid, "seriesUid");
        Objects.requireNonNull(seriesSha256, "seriesSha256");
        Objects.requireNonNull(volume, "volume");
        Objects.requireNonNull(acquisition, "acquisition");
        Objects.requireNonNull(pointSpread, "pointSpread");
        Objects.requireNonNull(referenceToExam, "referenceToExam");
        Objects.requireNonNull(poseKind, "poseKind");
    }

    /** The same exam with the construct, or a part of it, in another place. */
    public ExamScan at(RigidTransform otherReferenceToExam) {
        return new ExamScan(
                label, seriesUid, seriesSha256, volume, acquisition, pointSpread, otherReferenceToExam, poseKind);
    }

    /** HU of the scale's ceiling; NaN where the scale is not clipped. */
    double ceilingHuOrNaN() {
        return volume.statistics().ceilingHu().orElse(Double.NaN);
    }
}
