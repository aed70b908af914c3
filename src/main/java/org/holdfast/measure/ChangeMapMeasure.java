package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.holdfast.construct.PatchSample;
import org.holdfast.volume.Comparability;

/**
 * Change of mineral beside a face between two exams: mean HU over a window beyond the guard, exam minus reference exam, at
 * the same places of the implant, smoothed on the surface. Streaks that both exams share cancel in it. HU of the two
 * exams, 1 value a sample of the face; the two faces must be those of the same samples.
 */
final class ChangeMapMeasure {

    /** Standard normal quantile of 0.95: a change is found at so many of 100 places if it lies so far beyond the limit. */
    private static final double FOUND_SD = 1.645;
    /** A change reaches beyond its border by half the smoothing's width and three standard deviations of the blur. */
    private static final double BLUR_SD = 3;
    /** Samples nearer than so many spacings touch. */
    private static final double TOUCHING = 1.6;

    private final MeasurementSettings settings;
    private final ChangeSettings change;
    private final List<PatchSample> samples;
    private final SurfaceNeighbours smoothing;
    private final SurfaceNeighbours touching;

    ChangeMapMeasure(List<PatchSample> samples, MeasurementSettings settings) {
        this.settings = settings;
        this.change = settings.change();
        this.samples = samples;
        this.smoothing = new SurfaceNeighbours(samples, 0.5 * change.smoothingMm());
        this.touching = new SurfaceNeighbours(samples, TOUCHING * settings.sampleSpacingMm());
    }

    /**
     * The change map of an exam.
     *
     * @param reference the face on the reference exam
     * @param later the same face on the exam
     * @param exam the exam
     * @param disturbance metal that lies otherwise than on the reference exam
     */
    Answer<ChangeMap> compare(ComparedFace reference, ComparedFace later, ExamScan exam, Disturbance disturbance) {
        String refusal = refusal(reference, later, disturbance);
        if (!refusal.isEmpty()) {
            return Answer.not(refusal);
        }
        double from = Math.max(reference.guardMm(), later.guardMm());
        double to = from + change.windowMm();
        double[] difference = IntStream.range(0, samples.size())
                .mapToDouble(n -> disturbance.isNear(samples.get(n))
                        ? Double.NaN
                        : later.meanHu(n, from, to) - reference.meanHu(n, from, to))
                .toArray();
        double[] smooth = smoothing.smoothed(difference);
        ChangeError error = ChangeError.of(reference, later, exam, smoothing, from, to, settings);
        double[] errors =
                IntStream.range(0, smooth.length).mapToDouble(error::at).toArray();
        ChangeReading.Kind[] kinds = new ChangedSpots(samples, smooth, errors, change.beyondSd())
                .classes(borderReach(later), touching, Math.PI * 0.25 * change.smoothingMm() * change.smoothingMm());
        return map(smooth, errors, kinds, error, from);
    }

    /** Why the two exams cannot be compared at all; empty if they can. */
    private String refusal(ComparedFace reference, ComparedFace later, Disturbance disturbance) {
        String protocol = Comparability.between(reference.acquisition(), later.acquisition()).stream()
                .filter(d -> d.effect() == Comparability.Effect.NO_HU_COMPARISON)
                .map(Comparability.Difference::sentence)
                .collect(Collectors.joining(" "));
        if (!protocol.isEmpty()) {
            return protocol;
        }
        double turned = later.turnedDeg(reference);
        if (turned > change.maxTurnDeg()) {
            return String.format(
                    Locale.ROOT,
                    "the implant is turned by %.1f° in the scanner against the reference exam, %.1f° are allowed:"
                            + " streaks and blur are others",
                    turned,
                    change.maxTurnDeg());
        }
        return disturbance.ofPart().orElse("");
    }

    private SurfaceNeighbours borderReach(ComparedFace later) {
        double blur = Math.max(
                later.pointSpread().sigmaInPlaneMm(), later.pointSpread().sigmaAlongTableMm());
        return new SurfaceNeighbours(samples, 0.5 * change.smoothingMm() + BLUR_SD * blur);
    }

    private Answer<ChangeMap> map(
            double[] smooth, double[] errors, ChangeReading.Kind[] kinds, ChangeError error, double fromMm) {
        double[] area = new double[ChangeReading.Kind.values().length];
        List<ChangeReading> readings = new ArrayList<>(kinds.length);
        for (int n = 0; n < kinds.length; n++) {
            area[kinds[n].ordinal()] += samples.get(n).areaMm2();
            boolean comparable = kinds[n] != ChangeReading.Kind.NOT_COMPARABLE;
            readings.add(new ChangeReading(
                    samples.get(n),
                    kinds[n],
                    comparable ? OptionalDouble.of(smooth[n]) : OptionalDouble.empty(),
                    comparable ? OptionalDouble.of(errors[n]) : OptionalDouble.empty()));
        }
        double total = samples.stream().mapToDouble(PatchSample::areaMm2).sum();
        double[] told =
                readings.stream().flatMapToDouble(r -> r.errorHu().stream()).toArray();
        if (told.length == 0) {
            return Answer.not("no place of the face can be compared with the reference exam");
        }
        double typical = Quantiles.median(told);
        return Answer.of(new ChangeMap(
                area[ChangeReading.Kind.MORE.ordinal()] / total,
                area[ChangeReading.Kind.LESS.ordinal()] / total,
                area[ChangeReading.Kind.NONE.ordinal()] / total,
                area[ChangeReading.Kind.NOT_COMPARABLE.ordinal()] / total,
                typical,
                error.source(),
                (change.beyondSd() + FOUND_SD) * typical,
                2 * ProfileModel.normalCdf(-change.beyondSd()),
                Stated.ofOrNot(error.driftHu(), "no muscle region that both exams show"),
                fromMm,
                fromMm + change.windowMm(),
                readings));
    }
}
