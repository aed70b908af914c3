package org.holdfast.registration;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * Finds where the metal of a reference exam lies in another exam, wherever the table stood: searched over turns up to the
 * settings' largest and all translations, stepped onto the surface, refined on the edges. Metal that broke, moved apart or
 * left the image loses its weight as long as most of it fits. What does not fit, fits twice, or has metal more or less is
 * refused with the reason.
 */
public final class MetalRegistration {

    /** A second pose with this share of the best one's score fits as well. */
    private static final double ALIKE = 0.93;

    /** A start that was given may be so far off, mm. */
    private static final double START_REACH_MM = 12;

    private static final double LAST_LIMIT_MM = 3;
    private static final double LAST_LIMIT_DEG = 3;

    private final HuVolume reference;
    private final HuVolume exam;
    private final RegistrationSettings settings;
    private final TwoSurfaces surfaces;
    private final SurfacePoints fine;

    private MetalRegistration(HuVolume reference, HuVolume exam, RegistrationSettings settings, TwoSurfaces surfaces) {
        this.reference = reference;
        this.exam = exam;
        this.settings = settings;
        this.surfaces = surfaces;
        this.fine = surfaces.reference.thinned(settings.finePoints());
    }

    /**
     * Finds the pose of all metal.
     *
     * @param start where it is expected, within about 10 mm and 10°; empty to search. A start that leads nowhere is
     *     followed by the search
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static PoseResult register(
            HuVolume reference,
            HuVolume exam,
            Optional<RigidTransform> start,
            RegistrationSettings settings,
            Progress progress) {
        Objects.requireNonNull(start, "start");
        progress.report(0, "finding the metal's surface");
        SurfacePoints ours = MetalSurface.of(reference, settings.surfaceHu(), progress.part(0, 0.15));
        progress.report(0.15, "finding the metal's surface");
        SurfacePoints theirs = MetalSurface.of(exam, settings.surfaceHu(), progress.part(0.15, 0.3));
        return register(reference, ours, exam, theirs, start, settings, progress.part(0.3, 1));
    }

    /** The same with surfaces that are already known ({@link MetalSurface} at the settings' level). */
    public static PoseResult register(
            HuVolume reference,
            SurfacePoints referenceSurface,
            HuVolume exam,
            SurfacePoints examSurface,
            Optional<RigidTransform> start,
            RegistrationSettings settings,
            Progress progress) {
        if (referenceSurface.size() < 12 || examSurface.size() < 12) {
            return PoseResult.Refused.because(String.format(
                    Locale.ROOT,
                    "no metal over %.0f HU on the %s exam",
                    settings.surfaceHu(),
                    referenceSurface.size() < 12 ? "reference" : "follow-up"));
        }
        TwoSurfaces surfaces =
                new TwoSurfaces(referenceSurface, p -> isIn(reference, p), examSurface, p -> isIn(exam, p));
        return new MetalRegistration(reference, exam, settings, surfaces).register(start, progress);
    }

    private static boolean isIn(HuVolume volume, PatientPoint p) {
        return !Double.isNaN(volume.sample(p));
    }

    private PoseResult register(Optional<RigidTransform> start, Progress progress) {
        if (start.isPresent()) {
            PoseResult near = finish(start.get(), START_REACH_MM, progress.part(0, 0.3));
            if (near.found().isPresent()) {
                return near;
            }
        }
        List<PoseSearch.Scored> candidates = new PoseSearch(surfaces, settings).search(progress.part(0.3, 0.7));
        if (candidates.isEmpty()) {
            return PoseResult.Refused.because("the metal does not fit anywhere: another patient or re-operated?");
        }
        PoseResult best = finish(candidates.get(0).pose(), 4, progress.part(0.7, 1));
        return best instanceof PoseResult.Found found ? refuseIfAlike(found, candidates) : best;
    }

    private PoseResult refuseIfAlike(PoseResult.Found found, List<PoseSearch.Scored> candidates) {
        if (candidates.size() > 1
                && candidates.get(1).score() > ALIKE * candidates.get(0).score()) {
            RigidTransform other = candidates.get(1).pose();
            PatientPoint middle = fine.centroid();
            return new PoseResult.Refused(
                    String.format(
                            Locale.ROOT,
                            "the metal fits in two poses alike, %.0f mm and %.0f° apart: one must be chosen by hand",
                            found.referenceToExam().apply(middle).distanceTo(other.apply(middle)),
                            found.referenceToExam().inverse().then(other).rotationAngleDeg()),
                    Optional.of(found));
        }
        return found;
    }

    /** Steps onto the surface, judges, refines on the edges. */
    private PoseResult finish(RigidTransform start, double reachMm, Progress progress) {
        progress.stopIfCancelled();
        progress.report(0, "matching the metal");
        PoseResult matched = surfaces.toExam.match(fine, start, settings.match().withReachMm(reachMm));
        if (!(matched instanceof PoseResult.Found onSurface)) {
            return matched;
        }
        progress.report(0.5, "refining on the metal's edges");
        EdgeSettings edges = EdgeSettings.withDefaults().withLimits(LAST_LIMIT_MM, LAST_LIMIT_DEG);
        PoseResult refined =
                EdgeRefinement.near(reference, exam).refine(fine, onSurface.referenceToExam(), edges, progress);
        if (!(refined instanceof PoseResult.Found onEdges)) {
            return refined;
        }
        PoseQuality surface = surfaces.toExam.quality(fine, onEdges.referenceToExam(), settings.match());
        PoseQuality quality = PoseQuality.ofSurface(
                onEdges.quality().residualMm().orElseThrow(), surface.overlap(), surface.inlierShare());
        PoseResult.Found found = new PoseResult.Found(onEdges.referenceToExam(), quality, onEdges.uncertainty());
        return objection(found)
                .<PoseResult>map(reason -> new PoseResult.Refused(reason, Optional.of(found)))
                .orElse(found);
    }

    private Optional<String> objection(PoseResult.Found found) {
        Optional<String> misfit = PoseJudge.surface(found, settings.match());
        return misfit.isPresent() ? misfit : otherMetal(found.referenceToExam());
    }

    /** A part that only moved leaves one place and appears at another; a part more or less does only one of these. */
    private Optional<String> otherMetal(RigidTransform pose) {
        double gone = surfaces.goneMm2(pose, settings.otherMetalMm());
        double more = surfaces.newMm2(pose, settings.otherMetalMm());
        if (Math.abs(more - gone) <= settings.otherMetalMm2()) {
            return Optional.empty();
        }
        return Optional.of(String.format(
                Locale.ROOT,
                "this exam has about %.0f mm² %s metal surface than the reference exam: another patient or re-operated?",
                Math.abs(more - gone),
                more > gone ? "more" : "less"));
    }
}
