package org.holdfast.registration;

import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/** Matches a bone by its own voxels, metal left out. Safe to share between threads. */
public final class IntensityRegistration {

    private final HuVolume reference;
    private final HuVolume exam;
    private final Predicate<PatientPoint> leftOutInReference;
    private final Predicate<PatientPoint> leftOutInExam;

    /**
     * @param leftOutInReference places of the reference's patient space that must not count (metal and its surroundings)
     * @param leftOutInExam the same in the exam's patient space; both are asked often and from several threads
     */
    public IntensityRegistration(
            HuVolume reference,
            Predicate<PatientPoint> leftOutInReference,
            HuVolume exam,
            Predicate<PatientPoint> leftOutInExam) {
        this.reference = Objects.requireNonNull(reference, "reference");
        this.leftOutInReference = Objects.requireNonNull(leftOutInReference, "leftOutInReference");
        this.exam = Objects.requireNonNull(exam, "exam");
        this.leftOutInExam = Objects.requireNonNull(leftOutInExam, "leftOutInExam");
    }

    /**
     * Matches a region.
     *
     * @param region places of the bone in the reference's patient space, dense (about one a voxel or per mm³); the most
     *     telling of them are chosen
     * @param start where the region is expected, within 10 mm and 10°
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public PoseResult register(
            List<PatientPoint> region, RigidTransform start, IntensitySettings settings, Progress progress) {
        progress.stopIfCancelled();
        return PoseResult.Refused.because("matching by voxels is not computed for " + region.size() + " points");
    }
}
