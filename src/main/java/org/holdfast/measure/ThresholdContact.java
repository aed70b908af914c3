package org.holdfast.measure;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;

/**
 * Interface contact by threshold of one face in one exam. Fractions are area-weighted, 0 to 1. Immutable.
 *
 * @param fraction contact over assessable area; not stated under the settings' assessable share or where the estimator
 *     does not apply
 * @param low contact over the whole area: if nothing that is hidden were contact
 * @param high (contact + not assessable) over the whole area: if all that is hidden were contact
 * @param ofOppositeBone contact over the assessable area that lay opposite host bone on the reference exam
 * @param bridged contact that is connected with host bone in depth, over what can be assessed for that
 * @param notAssessable share of the area where nothing can be said
 * @param obstacles share of the area by cause
 * @param smallestVisibleGapMm the gap at which contact turns into a gap for this scan and these settings, mm
 * @param smallestVisibleGapIfBlurrierMm the same if the scan's point spread is 10 % larger than taken
 * @param isLimitSettled whether the two hardly differ; if not, the state hinges on the point spread
 * @param sensitivity the fraction with the bone threshold changed by so many HU
 * @param jitterSd standard deviation of the fraction over eight half-voxel shifts of the face
 * @param boneHu bone threshold used
 * @param boneRule how the bone threshold came about
 * @param hostHu median HU of the host bone on the reference exam
 * @param noiseSdHu standard deviation of the noise in the host bone in this exam
 * @param gapMm width of the gaps where a gap was found, read through the model of the profile where there is one
 * @param beyondGuardHu HU over the 2 mm beyond the guard, over the assessable samples
 * @param guardMm guard beyond the implant's edge
 * @param plateauHu median HU of the implant under the face
 * @param frontHu HU of the bone's front as the detection limit takes it
 * @param areaMm2 area of the face
 * @param readings one a sample, for the face-on map
 */
public record ThresholdContact(
        Stated fraction,
        double low,
        double high,
        Stated ofOppositeBone,
        Stated bridged,
        double notAssessable,
        Map<Obstacle, Double> obstacles,
        Stated smallestVisibleGapMm,
        Stated smallestVisibleGapIfBlurrierMm,
        boolean isLimitSettled,
        Map<Integer, Stated> sensitivity,
        Stated jitterSd,
        double boneHu,
        String boneRule,
        Stated hostHu,
        Stated noiseSdHu,
        Spread gapMm,
        Spread beyondGuardHu,
        double guardMm,
        Stated plateauHu,
        Stated frontHu,
        double areaMm2,
        List<SampleReading> readings) {

    /**
     * Area-weighted mean, median and tails of a set of numbers; all empty for an empty set.
     *
     * @param mean area-weighted mean
     * @param p10 10th percentile
     * @param median 50th percentile
     * @param p90 90th percentile
     */
    public record Spread(OptionalDouble mean, OptionalDouble p10, OptionalDouble median, OptionalDouble p90) {

        /** The spread of one number a sample, weighted by the samples' areas. */
        static Spread of(double[] values, double[] areasMm2) {
            if (values.length == 0) {
                return new Spread(
                        OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());
            }
            double sum = 0;
            double area = 0;
            for (int n = 0; n < values.length; n++) {
                sum += areasMm2[n] * values[n];
                area += areasMm2[n];
            }
            return new Spread(
                    OptionalDouble.of(sum / area),
                    OptionalDouble.of(Quantiles.weighted(values, areasMm2, 0.1)),
                    OptionalDouble.of(Quantiles.weighted(values, areasMm2, 0.5)),
                    OptionalDouble.of(Quantiles.weighted(values, areasMm2, 0.9)));
        }
    }

    /** The lower bound, or why none is stated: where the estimator does not apply its classes bound nothing. */
    public Stated statedLow() {
        return bound(low);
    }

    /** The upper bound, or why none is stated. */
    public Stated statedHigh() {
        return bound(high);
    }

    private Stated bound(double value) {
        return smallestVisibleGapMm.value().isPresent() ? Stated.of(value) : Stated.not(smallestVisibleGapMm.why());
    }

    public ThresholdContact {
        // In the order of the causes, so that a tie between two is settled the same way in every run.
        Map<Obstacle, Double> ordered = new EnumMap<>(Obstacle.class);
        ordered.putAll(obstacles);
        obstacles = Collections.unmodifiableMap(ordered);
        sensitivity = Collections.unmodifiableMap(new TreeMap<>(sensitivity));
        readings = List.copyOf(readings);
    }
}
