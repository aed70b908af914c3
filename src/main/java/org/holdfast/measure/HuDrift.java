package org.holdfast.measure;

import java.util.Arrays;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.PatchSample;

/**
 * Change of the HU scale between two exams, from something that cannot have changed.
 *
 * @param hu change at the HU of the porous layer, later minus reference exam
 * @param seHu its standard error
 * @param gain the same as a factor over all HU, 0 where it is an offset
 * @param reference what it was read in, in words
 */
record HuDrift(double hu, double seHu, double gain, String reference) {

    /** The core is read so far beyond the porous layer, mm from its inner border. */
    private static final double CORE_FROM_MM = 1.5;

    private static final double CORE_TO_MM = 2.5;
    private static final int MIN_SAMPLES = 30;
    /** A plateau closer to the ceiling than so many standard deviations of noise is bent by it. */
    private static final double CLEAR_SD = 4;

    private static final double USUAL_NOISE_HU = 25;

    /** From muscle where both exams show it, else from the solid core under the layer; a reason where neither can be had. */
    static Answer<HuDrift> between(ComparedFace reference, ComparedFace later, Component component, double depthMm) {
        if (reference.muscle().filter(MuscleRegion::isPlausible).isPresent()
                && later.muscle().filter(MuscleRegion::isPlausible).isPresent()) {
            return Answer.of(ofMuscle(reference.muscle().get(), later.muscle().get()));
        }
        return ofCore(reference, later, component, depthMm);
    }

    /** HU of the later exam as the reference exam's scale has them. */
    double corrected(double laterHu) {
        return gain == 0 ? laterHu - hu : laterHu / (1 + gain);
    }

    private static HuDrift ofMuscle(MuscleRegion before, MuscleRegion now) {
        String words = String.format(
                Locale.ROOT,
                "muscle %.0f mm round (%.1f, %.1f, %.1f) of the reference exam",
                MuscleRegion.RADIUS_MM,
                before.place().x(),
                before.place().y(),
                before.place().z());
        return new HuDrift(now.meanHu() - before.meanHu(), Math.hypot(now.seHu(), before.seHu()), 0, words);
    }

    /** A gain: metal is so far up the scale that an offset would not be told from it. */
    private static Answer<HuDrift> ofCore(
            ComparedFace reference, ComparedFace later, Component component, double depthMm) {
        int[] over = IntStream.range(0, later.size())
                .filter(n -> isCore(component, later.samples().get(n), depthMm))
                .toArray();
        double[] before = core(reference, over, depthMm);
        double[] now = core(later, over, depthMm);
        int[] both = IntStream.range(0, over.length)
                .filter(n -> !Double.isNaN(before[n] + now[n]))
                .toArray();
        if (both.length < MIN_SAMPLES) {
            return Answer.not(
                    "no internal reference: no muscle region that both exams show, no solid core under the layer"
                            + " that is not cut off by the scale");
        }
        double[] gains =
                Arrays.stream(both).mapToDouble(n -> now[n] / before[n] - 1).toArray();
        double gain = Arrays.stream(gains).average().orElseThrow();
        double squares = Arrays.stream(gains).map(g -> (g - gain) * (g - gain)).sum();
        double layer = Quantiles.median(IntStream.range(0, reference.size())
                .mapToDouble(n -> reference.meanHu(n, -0.75 * depthMm, -0.25 * depthMm))
                .filter(hu -> !Double.isNaN(hu))
                .toArray());
        return Answer.of(new HuDrift(
                gain * layer,
                layer * Math.sqrt(squares / (gains.length - 1) / gains.length),
                gain,
                "solid core of " + component.label()));
    }

    private static boolean isCore(Component component, PatchSample sample, double depthMm) {
        Predicate<Double> deep =
                depth -> component.shape().signedDistanceMm(sample.point().along(sample.normal(), -depth))
                        <= -(depthMm + CORE_FROM_MM);
        return component.shape().hasDistance()
                && deep.test(depthMm + CORE_FROM_MM + 0.1)
                && deep.test(depthMm + CORE_TO_MM);
    }

    private static double[] core(ComparedFace face, int[] samples, double depthMm) {
        double clear = face.ceilingHu() - CLEAR_SD * face.noiseSdHu().orElse(USUAL_NOISE_HU);
        return Arrays.stream(samples)
                .mapToDouble(n -> face.meanHu(n, -depthMm - CORE_TO_MM, -depthMm - CORE_FROM_MM))
                .map(hu -> hu >= clear ? Double.NaN : hu)
                .toArray();
    }
}
