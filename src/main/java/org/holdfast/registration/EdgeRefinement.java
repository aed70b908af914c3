package org.holdfast.registration;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * Refines the pose of metal, of one rigid group or of one part on the edges themselves: at each point of the reference's
 * surface the edge is found in both exams along the normal, finer than a voxel, and the pose is the robust least squares
 * solution of the shifts (Tukey's weights). This is the accurate engine: thousands of edges average noise and grid away.
 *
 * <p>What the edges do not determine (a rod slides and spins in its own place) stays as it started and is listed in the
 * result. Safe to share between threads.
 */
public final class EdgeRefinement {

    /** Tukey's constant for 95 % efficiency with normal errors, times 1.4826 that makes a median an SD. */
    private static final double TUKEY_MADS = 4.685 * 1.4826;
    /** Weights never get narrower than this, mm: it is finer than any edge is known. */
    private static final double NARROWEST_MM = 0.05;

    /**
     * At first weights reach at least so far, mm, then less from step to step: where few faces show a motion (both ends of a
     * long body), the many that do not see it must not vote them out before they were heard.
     */
    private static final double FIRST_WIDTH_MM = 0.8;

    private static final double SHRINK = 0.5;

    private static final double STILL_MM = 5e-4;
    private static final double TYPICAL_RADIUS_MM = 30;
    private static final int REWEIGHTINGS = 6;
    private static final double EDGE_SD_MM = 0.05;

    private final HuVolume reference;
    private final HuVolume exam;
    private final Optional<SurfaceMatch> surface;

    private EdgeRefinement(HuVolume reference, HuVolume exam, Optional<SurfaceMatch> surface) {
        this.reference = Objects.requireNonNull(reference, "reference");
        this.exam = Objects.requireNonNull(exam, "exam");
        this.surface = surface;
    }

    /** Refines from starts that lie within about 1.5 mm of the truth. */
    public static EdgeRefinement near(HuVolume reference, HuVolume exam) {
        return new EdgeRefinement(reference, exam, Optional.empty());
    }

    /** Matches the exam's surface first, so that the start may be as far off as the settings' limits. */
    public static EdgeRefinement from(HuVolume reference, HuVolume exam, SurfaceMatch examSurface) {
        return new EdgeRefinement(reference, exam, Optional.of(examSurface));
    }

    /**
     * Refines a pose.
     *
     * @param samples points on the reference's metal surface with outward normals, in the reference's patient space; those
     *     of the part that is refined
     * @param start where the samples are expected
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public PoseResult refine(SurfacePoints samples, RigidTransform start, EdgeSettings settings, Progress progress) {
        if (samples.size() < 12) {
            return PoseResult.Refused.because("too little surface to refine a pose: " + samples.size() + " points");
        }
        RigidTransform pose =
                surface.flatMap(s -> matched(s, samples, start, settings)).orElse(start);
        EdgePairs pairs = new EdgePairs(reference, exam, samples, settings);
        Fitted fitted = null;
        for (int round = 0; round < settings.rounds(); round++) {
            progress.stopIfCancelled();
            pairs.read(pose);
            Optional<Fitted> step = fit(pairs, pose, settings);
            if (step.isEmpty()) {
                return PoseResult.Refused.because(
                        "too few edges of metal are seen in both exams within " + settings.reachMm() + " mm");
            }
            fitted = step.get();
            pose = pose.then(fitted.solution.step());
            if (fitted.solution.translationMm() + TYPICAL_RADIUS_MM * fitted.solution.rotationRad() < STILL_MM) {
                break;
            }
        }
        PoseResult.Found found = new PoseResult.Found(pose, fitted.quality, fitted.uncertainty);
        return objection(samples, start, found, settings)
                .<PoseResult>map(reason -> new PoseResult.Refused(reason, Optional.of(found)))
                .orElse(found);
    }

    private static Optional<RigidTransform> matched(
            SurfaceMatch surface, SurfacePoints samples, RigidTransform start, EdgeSettings settings) {
        double reachMm = Math.max(1.5, settings.limitMm());
        return surface.iterate(samples, start, MatchSettings.withDefaults().withReachMm(reachMm))
                .map(SurfaceMatch.Iterated::pose)
                .filter(pose -> isWithinLimits(samples, start, pose, settings));
    }

    private static boolean isWithinLimits(
            SurfacePoints samples, RigidTransform start, RigidTransform pose, EdgeSettings settings) {
        PatientPoint middle = samples.centroid();
        return start.apply(middle).distanceTo(pose.apply(middle)) <= settings.limitMm()
                && start.inverse().then(pose).rotationAngleDeg() <= settings.limitDeg();
    }

    private record Fitted(MotionFit.Solution solution, PoseUncertainty uncertainty, PoseQuality quality) {}

    /** One robust solution for the shifts at a pose; empty where fewer than 12 edges are seen. */
    private static Optional<Fitted> fit(EdgePairs pairs, RigidTransform pose, EdgeSettings settings) {
        SurfacePoints moved = pairs.samples.moved(pose);
        PatientPoint centre = moved.centroid();
        double[] shift = pairs.shiftMm;
        double[] left = shift.clone();
        double least = FIRST_WIDTH_MM;
        double width = Math.max(least, width(left));
        MotionFit.Solution solution = null;
        MotionFit rows = null;
        for (int n = 0; n < REWEIGHTINGS; n++) {
            rows = new MotionFit(centre, settings.leastShare(), EdgePairs.GROUPS, settings.offsetSdMm(), EDGE_SD_MM);
            addRows(rows, moved, pairs, left, width);
            if (rows.size() < 12) {
                return Optional.empty();
            }
            solution = rows.solve();
            leftOver(moved, pairs, solution, left);
            least *= SHRINK;
            width = Math.max(least, width(left));
        }
        return Optional.of(
                new Fitted(solution, rows.uncertainty(solution), quality(moved, pairs.isInside, left, width)));
    }

    private static void addRows(MotionFit rows, SurfacePoints moved, EdgePairs pairs, double[] left, double width) {
        double[] p = moved.at;
        double[] m = moved.normals;
        for (int n = 0; n < left.length; n++) {
            double share = left[n] / width;
            if (Math.abs(share) < 1) {
                double tukey = (1 - share * share) * (1 - share * share);
                rows.add(
                        p[3 * n],
                        p[3 * n + 1],
                        p[3 * n + 2],
                        m[3 * n],
                        m[3 * n + 1],
                        m[3 * n + 2],
                        pairs.shiftMm[n],
                        tukey * moved.areaMm2(n),
                        pairs.group[n]);
            }
        }
    }

    /** What a solution leaves of each shift, mm. */
    private static void leftOver(SurfacePoints moved, EdgePairs pairs, MotionFit.Solution solution, double[] left) {
        SurfacePoints after = moved.moved(solution.step());
        double[] p = moved.at;
        double[] q = after.at;
        double[] m = moved.normals;
        for (int n = 0; n < left.length; n++) {
            double way = m[3 * n] * (q[3 * n] - p[3 * n])
                    + m[3 * n + 1] * (q[3 * n + 1] - p[3 * n + 1])
                    + m[3 * n + 2] * (q[3 * n + 2] - p[3 * n + 2]);
            left[n] = pairs.shiftMm[n] - way - solution.offsets()[pairs.group[n]];
        }
    }

    /** Reach of Tukey's weights: from the median of the distances, mm. */
    private static double width(double[] left) {
        double[] sizes = Arrays.stream(left)
                .filter(v -> !Double.isNaN(v))
                .map(Math::abs)
                .sorted()
                .toArray();
        return sizes.length == 0 ? NARROWEST_MM : Math.max(NARROWEST_MM, TUKEY_MADS * sizes[sizes.length / 2]);
    }

    private static PoseQuality quality(SurfacePoints moved, boolean[] isInside, double[] left, double width) {
        double inside = 0;
        double fits = 0;
        double squares = 0;
        for (int n = 0; n < left.length; n++) {
            double area = moved.areaMm2(n);
            inside += isInside[n] ? area : 0;
            if (Math.abs(left[n]) < width) {
                fits += area;
                squares += area * left[n] * left[n];
            }
        }
        return PoseQuality.ofSurface(
                fits > 0 ? Math.sqrt(squares / fits) : width,
                Math.min(1, inside / moved.totalAreaMm2()),
                inside > 0 ? Math.min(1, fits / inside) : 0);
    }

    private static Optional<String> objection(
            SurfacePoints samples, RigidTransform start, PoseResult.Found found, EdgeSettings settings) {
        if (!isWithinLimits(samples, start, found.referenceToExam(), settings)) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the edges fit only after a motion of more than %.1f mm or %.1f°",
                    settings.limitMm(),
                    settings.limitDeg()));
        }
        if (found.quality().overlap() < settings.leastOverlap()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "only %.0f %% of the surface lies inside this exam's image (at least %.0f %% needed)",
                    100 * found.quality().overlap(),
                    100 * settings.leastOverlap()));
        }
        if (found.quality().inlierShare() < settings.leastInlierShare()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "only %.0f %% of the edges are seen in both exams and fit (at least %.0f %% needed)",
                    100 * found.quality().inlierShare(),
                    100 * settings.leastInlierShare()));
        }
        return Optional.empty();
    }
}
