package org.holdfast.registration;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/**
 * Brings one surface onto another: point-to-plane iteration (Chen and Medioni, Image Vis Comput 1992;10:145) with partners
 * whose normals agree, and Tukey's weights on the distance along the normal, whose reach shrinks from step to step. What
 * moved apart or is missing on one side loses its weight. Safe to share between threads.
 */
public final class SurfaceMatch {

    /** Steps smaller than this end the iteration: mm, and radians times 50 mm. */
    private static final double STILL_MM = 2e-5;

    private static final double TYPICAL_RADIUS_MM = 50;
    /** The reach shrinks by this factor a step, down to the last one. */
    private static final double SHRINK = 0.8;

    private final SurfacePoints exam;
    private final PointTree tree;
    private final Predicate<PatientPoint> isInImage;

    /**
     * @param exam surface of the exam, in its patient space; dense, since partners are looked for among its points
     * @param isInImage whether a point of the exam's patient space lies in its image: what does not is not missed
     */
    public SurfaceMatch(SurfacePoints exam, Predicate<PatientPoint> isInImage) {
        this.exam = Objects.requireNonNull(exam, "exam");
        this.isInImage = Objects.requireNonNull(isInImage, "isInImage");
        this.tree = new PointTree(exam);
    }

    /** The exam's surface. */
    public SurfacePoints exam() {
        return exam;
    }

    /**
     * Matches the reference's surface, from a start that lies within about the settings' reach.
     *
     * @param reference points of the reference exam, in its patient space
     */
    public PoseResult match(SurfacePoints reference, RigidTransform start, MatchSettings settings) {
        if (reference.size() < 12 || exam.size() < 12) {
            return PoseResult.Refused.because(String.format(
                    Locale.ROOT,
                    "too little metal surface to find a pose: %d points on the reference exam, %d on this one",
                    reference.size(),
                    exam.size()));
        }
        Optional<Iterated> iterated = iterate(reference, start, settings);
        if (iterated.isEmpty()) {
            return PoseResult.Refused.because(String.format(
                    Locale.ROOT,
                    "no metal of this exam lies within %.1f mm of where the reference exam has it",
                    settings.reachMm()));
        }
        return judge(reference, iterated.get(), settings);
    }

    /** A pose and its uncertainty, before they are judged. */
    record Iterated(RigidTransform pose, PoseUncertainty uncertainty) {}

    /** Iterates without judging; empty where fewer than 12 points have a partner. */
    Optional<Iterated> iterate(SurfacePoints reference, RigidTransform start, MatchSettings settings) {
        RigidTransform pose = start;
        double reachMm = settings.reachMm();
        PoseUncertainty uncertainty = null;
        for (int round = 0; round < settings.rounds(); round++) {
            MotionFit rows = rows(reference.moved(pose), reachMm, settings);
            if (rows.size() < 12) {
                return Optional.empty();
            }
            MotionFit.Solution step = rows.solve();
            pose = pose.then(step.step());
            boolean isStill = reachMm <= settings.toleranceMm()
                    && step.translationMm() + TYPICAL_RADIUS_MM * step.rotationRad() < STILL_MM;
            reachMm = Math.max(settings.toleranceMm(), SHRINK * reachMm);
            if (isStill || round + 1 == settings.rounds()) {
                uncertainty = rows.uncertainty(step);
                break;
            }
        }
        return Optional.of(new Iterated(pose, uncertainty));
    }

    private MotionFit rows(SurfacePoints moved, double reachMm, MatchSettings settings) {
        MotionFit fit = new MotionFit(moved.centroid(), settings.leastShare(), 0, 1, 1);
        PointTree.Search search = tree.search();
        double[] p = moved.at;
        double[] q = exam.at;
        double[] m = exam.normals;
        for (int n = 0; n < moved.size(); n++) {
            int partner = search.nearest(
                    p[3 * n],
                    p[3 * n + 1],
                    p[3 * n + 2],
                    moved.normals[3 * n],
                    moved.normals[3 * n + 1],
                    moved.normals[3 * n + 2],
                    settings.leastCosine(),
                    reachMm + 1);
            if (partner >= 0) {
                double along = along(p, n, q, m, partner);
                double share = along / reachMm;
                if (Math.abs(share) < 1) {
                    double tukey = (1 - share * share) * (1 - share * share);
                    fit.add(
                            p[3 * n],
                            p[3 * n + 1],
                            p[3 * n + 2],
                            m[3 * partner],
                            m[3 * partner + 1],
                            m[3 * partner + 2],
                            along,
                            tukey * moved.areaMm2(n),
                            0);
                }
            }
        }
        return fit;
    }

    /** Distance from a point to its partner's tangent plane, along the partner's normal, mm. */
    private static double along(double[] p, int n, double[] q, double[] m, int partner) {
        return m[3 * partner] * (q[3 * partner] - p[3 * n])
                + m[3 * partner + 1] * (q[3 * partner + 1] - p[3 * n + 1])
                + m[3 * partner + 2] * (q[3 * partner + 2] - p[3 * n + 2]);
    }

    /** How well the reference's points fit at a pose; by area. */
    PoseQuality quality(SurfacePoints reference, RigidTransform pose, MatchSettings settings) {
        SurfacePoints moved = reference.moved(pose);
        PointTree.Search search = tree.search();
        double inside = 0;
        double fits = 0;
        double squares = 0;
        for (int n = 0; n < moved.size(); n++) {
            if (!isInImage.test(moved.point(n))) {
                continue;
            }
            double area = moved.areaMm2(n);
            inside += area;
            int partner = search.nearest(
                    moved.at[3 * n],
                    moved.at[3 * n + 1],
                    moved.at[3 * n + 2],
                    moved.normals[3 * n],
                    moved.normals[3 * n + 1],
                    moved.normals[3 * n + 2],
                    settings.leastCosine(),
                    settings.toleranceMm() + 1);
            double along = partner < 0 ? Double.NaN : along(moved.at, n, exam.at, exam.normals, partner);
            if (Math.abs(along) <= settings.toleranceMm()) {
                fits += area;
                squares += area * along * along;
            }
        }
        return PoseQuality.ofSurface(
                fits > 0 ? Math.sqrt(squares / fits) : settings.toleranceMm(),
                Math.min(1, inside / moved.totalAreaMm2()),
                inside > 0 ? Math.min(1, fits / inside) : 0);
    }

    /** Distance from each reference point to the exam's surface at a pose, mm; NaN for points outside the image. */
    double[] distancesMm(SurfacePoints reference, RigidTransform pose, double reachMm) {
        SurfacePoints moved = reference.moved(pose);
        PointTree.Search search = tree.search();
        double[] distances = new double[moved.size()];
        Arrays.fill(distances, Double.NaN);
        for (int n = 0; n < distances.length; n++) {
            if (isInImage.test(moved.point(n))) {
                search.nearest(moved.at[3 * n], moved.at[3 * n + 1], moved.at[3 * n + 2], 0, 0, 0, -2, reachMm);
                distances[n] = search.distanceMm();
            }
        }
        return distances;
    }

    private PoseResult judge(SurfacePoints reference, Iterated iterated, MatchSettings settings) {
        PoseQuality quality = quality(reference, iterated.pose(), settings);
        PoseResult.Found found = new PoseResult.Found(iterated.pose(), quality, iterated.uncertainty());
        return PoseJudge.surface(found, settings)
                .<PoseResult>map(reason -> new PoseResult.Refused(reason, Optional.of(found)))
                .orElse(found);
    }
}
