package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * Matches a bone by its own voxels, metal left out: the pose that leaves the least of reference − (gain · exam + offset),
 * by Gauss-Newton steps with both exams' gradients and Tukey's weights, from blurred to fine. Gain and offset are free, so
 * another tube voltage does not matter; what healed or resorbed loses its weight. Safe to share between threads.
 */
public final class IntensityRegistration {

    private static final double SPACING_MM = 0.75;
    /** Levels, from coarse to fine: blur in mm and lattice spacing in units of {@link #SPACING_MM}. */
    private static final double[] BLUR_MM = {3, 1.5, 0.6};

    private static final int[] FACTORS = {3, 2, 1};
    private static final double SEARCH_STEP_MM = 5;
    private static final int SEARCH_STEPS = 2;
    private static final int SEARCH_POINTS = 700;
    private static final int STARTS = 4;
    /** A fit is set aside if it compares less than this share of the places that another compares. */
    private static final double COMPARES_AS_MUCH = 0.75;

    /** Room round the region in the reference, for the blur and the splines, mm. */
    private static final double ROOM_MM = 6;

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
        if (region.size() < 200) {
            return PoseResult.Refused.because("too little bone to find a pose: " + region.size() + " places");
        }
        BlurredImage ours = read(reference, region, ROOM_MM, leftOutInReference, progress.part(0, 0.2));
        BlurredImage theirs = read(
                exam,
                region.stream().map(start::apply).toList(),
                ROOM_MM + settings.limitMm(),
                leftOutInExam,
                progress.part(0.2, 0.5));
        List<RigidTransform> starts = List.of(start);
        Optional<IntensityFit.Fitted> best = Optional.empty();
        for (int level = 0; level < BLUR_MM.length; level++) {
            progress.report(0.5 + 0.5 * level / BLUR_MM.length, "matching bone by its voxels");
            IntensityFit fit = new IntensityFit(
                    ours.blurred(BLUR_MM[level], FACTORS[level]),
                    theirs.blurred(BLUR_MM[level], FACTORS[level]),
                    region,
                    Math.max(500, settings.points() / (FACTORS[level] * FACTORS[level])));
            if (level == 0) {
                starts = starts(fit, start, region);
            }
            best = best(fit, starts, progress);
            if (best.isEmpty()) {
                return PoseResult.Refused.because("the bone does not lie inside this exam's image, or metal covers it");
            }
            starts = List.of(best.get().pose());
        }
        return judge(best.get(), start, region, settings);
    }

    private static BlurredImage read(
            HuVolume volume,
            List<PatientPoint> points,
            double roomMm,
            Predicate<PatientPoint> leftOut,
            Progress progress) {
        double[] low = {Double.MAX_VALUE, Double.MAX_VALUE, Double.MAX_VALUE};
        double[] high = {-Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (PatientPoint p : points) {
            double[] at = {p.x(), p.y(), p.z()};
            for (int axis = 0; axis < 3; axis++) {
                low[axis] = Math.min(low[axis], at[axis] - roomMm);
                high[axis] = Math.max(high[axis], at[axis] + roomMm);
            }
        }
        return BlurredImage.read(volume, low, high, SPACING_MM, leftOut, progress);
    }

    /** The shifts of the start that correlate best, and the start itself. */
    private static List<RigidTransform> starts(IntensityFit fit, RigidTransform start, List<PatientPoint> region) {
        record Scored(RigidTransform pose, double correlation) {}
        List<Scored> scored = new ArrayList<>();
        for (int a = -SEARCH_STEPS; a <= SEARCH_STEPS; a++) {
            for (int b = -SEARCH_STEPS; b <= SEARCH_STEPS; b++) {
                for (int c = -SEARCH_STEPS; c <= SEARCH_STEPS; c++) {
                    PatientVector shift = new PatientVector(a, b, c).times(SEARCH_STEP_MM);
                    RigidTransform pose = start.then(RigidTransform.translation(shift));
                    scored.add(new Scored(pose, fit.correlation(pose, SEARCH_POINTS)));
                }
            }
        }
        scored.sort(Comparator.comparingDouble(Scored::correlation).reversed());
        List<RigidTransform> starts = new ArrayList<>(List.of(start));
        scored.stream().limit(STARTS - 1).forEach(s -> starts.add(s.pose()));
        return starts;
    }

    /** The best of the fits that compare about as much of the bone as any: little of it may look alike anywhere. */
    private static Optional<IntensityFit.Fitted> best(
            IntensityFit fit, List<RigidTransform> starts, Progress progress) {
        List<IntensityFit.Fitted> fits = starts.stream()
                .flatMap(start -> fit.fit(start, progress).stream())
                .toList();
        double most =
                fits.stream().mapToDouble(IntensityFit.Fitted::overlap).max().orElse(0);
        return fits.stream()
                .filter(fitted -> fitted.overlap() >= COMPARES_AS_MUCH * most)
                .max(Comparator.comparingDouble(IntensityFit.Fitted::correlation));
    }

    private static PoseResult judge(
            IntensityFit.Fitted fitted, RigidTransform start, List<PatientPoint> region, IntensitySettings settings) {
        PoseResult.Found found = new PoseResult.Found(
                fitted.pose(),
                PoseQuality.ofIntensity(fitted.correlation(), fitted.overlap(), fitted.inlierShare()),
                fitted.uncertainty());
        return objection(found, start, middle(region), settings)
                .<PoseResult>map(reason -> new PoseResult.Refused(reason, Optional.of(found)))
                .orElse(found);
    }

    private static PatientPoint middle(List<PatientPoint> region) {
        double x = 0;
        double y = 0;
        double z = 0;
        for (PatientPoint p : region) {
            x += p.x();
            y += p.y();
            z += p.z();
        }
        int n = region.size();
        return new PatientPoint(x / n, y / n, z / n);
    }

    private static Optional<String> objection(
            PoseResult.Found found, RigidTransform start, PatientPoint middle, IntensitySettings settings) {
        RigidTransform pose = found.referenceToExam();
        double way = start.apply(middle).distanceTo(pose.apply(middle));
        double turn = start.inverse().then(pose).rotationAngleDeg();
        if (found.quality().overlap() < settings.leastOverlap()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "only %.0f %% of the bone can be compared, the rest lies outside the image or at metal",
                    100 * found.quality().overlap()));
        }
        if (found.quality().correlation().orElseThrow() < settings.leastCorrelation()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the bone does not look the same on both exams (correlation %.2f, at least %.2f needed)",
                    found.quality().correlation().orElseThrow(),
                    settings.leastCorrelation()));
        }
        if (way > settings.limitMm() || turn > settings.limitDeg()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the bone fits only %.1f mm and %.1f° from where it is expected (at most %.1f mm, %.1f°)",
                    way,
                    turn,
                    settings.limitMm(),
                    settings.limitDeg()));
        }
        if (!found.uncertainty().isFullyDetermined()) {
            return Optional.of("the bone's structure does not determine a pose: it can turn or slide unseen");
        }
        return Optional.empty();
    }
}
