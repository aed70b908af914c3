package org.holdfast.registration;

import java.util.Optional;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/** Finds where the metal of a reference exam lies in another exam. */
public final class MetalRegistration {

    private MetalRegistration() {}

    /**
     * Finds the pose of all metal.
     *
     * @param start where it is expected; empty to search
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static PoseResult register(
            HuVolume reference,
            HuVolume exam,
            Optional<RigidTransform> start,
            RegistrationSettings settings,
            Progress progress) {
        SurfacePoints ours = MetalSurface.of(reference, settings.surfaceHu(), progress.part(0, 0.2));
        SurfacePoints theirs = MetalSurface.of(exam, settings.surfaceHu(), progress.part(0.2, 0.4));
        if (ours.size() == 0 || theirs.size() == 0) {
            return PoseResult.Refused.because("no metal");
        }
        SurfaceMatch match = new SurfaceMatch(theirs, p -> !Double.isNaN(exam.sample(p)));
        PatientVector way = theirs.centroid().minus(ours.centroid());
        RigidTransform from = start.orElse(RigidTransform.translation(way));
        SurfacePoints fine = ours.thinned(settings.finePoints());
        PoseResult matched = match.match(fine, from, settings.match().withReachMm(20));
        return matched.found()
                .map(found -> EdgeRefinement.near(reference, exam)
                        .refine(fine, found.referenceToExam(), EdgeSettings.withDefaults(), progress))
                .orElse(matched);
    }
}
