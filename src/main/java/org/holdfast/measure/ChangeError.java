package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * How far a smoothed difference of two exams strays where nothing changed: noise, an error of the pose, drift of the HU
 * scale, in quadrature.
 *
 * @param noiseHu standard deviation from noise and interpolation, the same for all samples
 * @param poseHu standard deviation from an error of the pose, one a sample; NaN where it cannot be told
 * @param driftHu change of HU in muscle; NaN where it is not known
 * @param source in words
 */
record ChangeError(double noiseHu, double[] poseHu, double driftHu, String source) {

    /** Samples so far apart share no voxel of a smoothed reading, in widths of the smoothing. */
    private static final double APART_WIDTHS = 1.5;

    private static final double REACH_WIDTHS = 2;
    /** Fewer pairs in the depth give no figure. */
    private static final int MIN_PAIRS = 40;
    /** Standard deviation over the median of absolute values, Gaussian: 1/Φ⁻¹(3/4). */
    private static final double SD_OF_MEDIAN = 1.4826;

    private static final double STEP_MM = 0.2;

    /** Standard deviation at one sample, HU; NaN where it cannot be told. */
    double at(int n) {
        double drift = Double.isNaN(driftHu) ? 0 : driftHu;
        return Math.sqrt(noiseHu * noiseHu + poseHu[n] * poseHu[n] + drift * drift);
    }

    /**
     * The error of a face in one exam against the reference exam.
     *
     * @param exam the later exam, for what its volume would read at a slightly other pose
     * @param smoothing the smoothing that the differences go through
     * @param fromMm window beyond the edge, from
     * @param toMm window beyond the edge, to
     */
    static ChangeError of(
            ComparedFace reference,
            ComparedFace later,
            ExamScan exam,
            SurfaceNeighbours smoothing,
            double fromMm,
            double toMm,
            MeasurementSettings settings) {
        double[] pose = pose(later, exam, smoothing, fromMm, toMm, settings.change());
        double drift = drift(reference, later);
        List<Double> pairs = depthDifferences(reference, later, smoothing, settings);
        double noise;
        String source;
        if (pairs.size() >= MIN_PAIRS) {
            noise = SD_OF_MEDIAN
                    * Quantiles.median(pairs.stream().mapToDouble(Math::abs).toArray())
                    / Math.sqrt(2);
            source = String.format(
                    Locale.ROOT,
                    "noise %.1f HU (differences of the exams %.0f to %.0f mm deep in the host bone, %d pairs of places)",
                    noise,
                    settings.hostFromMm(),
                    settings.hostToMm(),
                    pairs.size());
        } else {
            noise = propagated(reference, later, toMm - fromMm, settings);
            source = String.format(
                    Locale.ROOT, "noise %.1f HU (propagated from voxels, too little host bone in depth)", noise);
        }
        source += String.format(
                Locale.ROOT,
                ", pose %.2f mm: %.1f HU (median)",
                settings.change().poseSdMm(),
                Quantiles.median(IntStream.range(0, pose.length)
                        .mapToDouble(n -> pose[n])
                        .filter(v -> !Double.isNaN(v))
                        .toArray()));
        source += Double.isNaN(drift)
                ? ", drift of the HU scale not known"
                : String.format(Locale.ROOT, ", drift of muscle %.1f HU", drift);
        return new ChangeError(noise, pose, drift, source);
    }

    private static double drift(ComparedFace reference, ComparedFace later) {
        boolean known = reference.muscle().isPresent()
                && later.muscle().isPresent()
                && reference.muscle().get().isPlausible()
                && later.muscle().get().isPlausible();
        return known ? later.muscle().get().meanHu() - reference.muscle().get().meanHu() : Double.NaN;
    }

    /**
     * Differences, between places that share no voxel, of the smoothed difference of the exams in the depth of the host
     * bone, where there is no implant's flank: slow changes of the bone cancel in them.
     */
    private static List<Double> depthDifferences(
            ComparedFace reference, ComparedFace later, SurfaceNeighbours smoothing, MeasurementSettings settings) {
        double width = Math.max(settings.change().smoothingMm(), settings.sampleSpacingMm());
        SurfaceNeighbours around = new SurfaceNeighbours(reference.samples(), REACH_WIDTHS * width);
        double window = settings.change().windowMm();
        List<Double> pairs = new ArrayList<>();
        for (double from = settings.hostFromMm(); from + window <= settings.hostToMm() + 1e-9; from += window) {
            double depth = from;
            double[] difference = IntStream.range(0, later.size())
                    .mapToDouble(
                            n -> later.meanHu(n, depth, depth + window) - reference.meanHu(n, depth, depth + window))
                    .toArray();
            double[] smooth = smoothing.smoothed(difference);
            for (int n = 0; n < smooth.length; n++) {
                int partner = partner(reference.samples(), around.of(n), n, APART_WIDTHS * width);
                if (partner >= 0 && !Double.isNaN(smooth[n] - smooth[partner])) {
                    pairs.add(smooth[n] - smooth[partner]);
                }
            }
        }
        return pairs;
    }

    /** The first later neighbour that lies at least so far away; −1 if there is none. */
    private static int partner(List<PatchSample> samples, int[] neighbours, int n, double apartMm) {
        for (int m : neighbours) {
            if (m > n && samples.get(m).point().distanceTo(samples.get(n).point()) >= apartMm) {
                return m;
            }
        }
        return -1;
    }

    /** Noise of the voxels over the voxels that a smoothed window holds, both exams; 0 where the noise is not known. */
    private static double propagated(
            ComparedFace reference, ComparedFace later, double windowMm, MeasurementSettings settings) {
        double radius = 0.5 * Math.max(settings.change().smoothingMm(), settings.sampleSpacingMm());
        double volume = Math.PI * radius * radius * windowMm;
        double variance = 0;
        for (ComparedFace face : List.of(reference, later)) {
            double noise = face.noiseSdHu().orElse(0);
            double voxel = face.grid().columnSpacingMm()
                    * face.grid().rowSpacingMm()
                    * face.grid().pitchMm().orElse(1);
            variance += noise * noise * Math.min(1, voxel / volume);
        }
        return Math.sqrt(variance);
    }

    /** Half the difference of the readings at poses shifted both ways, along three axes, in quadrature. */
    private static double[] pose(
            ComparedFace later,
            ExamScan exam,
            SurfaceNeighbours smoothing,
            double fromMm,
            double toMm,
            ChangeSettings settings) {
        double[] squares = new double[later.size()];
        CubicReading reading = new CubicReading(exam.volume());
        for (PatientVector axis : List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL)) {
            PatientVector shift = axis.times(settings.poseSdMm());
            double[] half = IntStream.range(0, later.size())
                    .parallel()
                    .mapToDouble(n -> 0.5
                            * (shifted(later, reading, n, shift, fromMm, toMm)
                                    - shifted(later, reading, n, shift.times(-1), fromMm, toMm)))
                    .toArray();
            double[] smooth = smoothing.smoothed(half);
            for (int n = 0; n < squares.length; n++) {
                squares[n] += smooth[n] * smooth[n];
            }
        }
        return IntStream.range(0, squares.length)
                .mapToDouble(n -> Math.sqrt(squares[n]))
                .toArray();
    }

    private static double shifted(
            ComparedFace later, CubicReading reading, int n, PatientVector shift, double fromMm, double toMm) {
        if (Double.isNaN(later.meanHu(n, fromMm, toMm))) {
            return Double.NaN;
        }
        PatchSample sample = later.samples().get(n);
        PatientPoint p = later.pose().apply(sample.point()).plus(shift);
        PatientVector normal = later.pose().apply(sample.normal());
        int steps = (int) Math.ceil((toMm - fromMm) / STEP_MM);
        double sum = 0;
        for (int at = 0; at <= steps; at++) {
            double t = later.edgeMm()[n] + fromMm + (toMm - fromMm) * at / steps;
            sum += reading.hu(p.along(normal, t));
        }
        return sum / (steps + 1);
    }
}
