package org.holdfast.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * The lucent zone around a screw in its bone. Absence of a zone does not exclude loosening. Immutable.
 *
 * @param byFit by fit of sector and station means
 * @param byThreshold by threshold, single samples; blind near 1 mm
 */
public record ScrewLucency(Answer<Zone> byFit, Answer<Zone> byThreshold) {

    /**
     * The zone by one estimator.
     *
     * @param largestMeanMm largest width of the circumferential mean over the stations
     * @param largestMeanSeMm its standard error
     * @param widestSectorMm largest width over 60° × 5 mm
     * @param lengthOverMm length of the screw over which the mean width exceeds the limit
     * @param shareOver share of circumference and length whose width exceeds the limit, of what is assessable
     * @param notAssessable share of circumference and length where nothing can be said
     * @param rim share of the assessable length with a sclerotic rim
     * @param smallestVisibleMm the narrowest zone that can be seen in this scan
     * @param growthMm largest widening of a station's mean against the reference exam
     * @param growthSeMm its standard error
     * @param isOverLimit whether the rule of the settings calls it lucent
     * @param isNew whether it is over the limit and wider than on the reference exam by more than its error
     * @param stations 1 mm apart along the screw in bone
     * @param sectors the unrolled surface, for the map
     */
    public record Zone(
            Stated largestMeanMm,
            Stated largestMeanSeMm,
            Stated widestSectorMm,
            Stated lengthOverMm,
            Stated shareOver,
            double notAssessable,
            Stated rim,
            Stated smallestVisibleMm,
            Stated growthMm,
            Stated growthSeMm,
            boolean isOverLimit,
            boolean isNew,
            List<Station> stations,
            List<Sector> sectors) {

        public Zone {
            stations = List.copyOf(stations);
            sectors = List.copyOf(sectors);
        }
    }

    /**
     * One place along the screw.
     *
     * @param atMm distance from the screw's head point along its axis
     * @param meanMm width of the circumferential mean, or why there is none
     * @param maxMm width of the widest sector there
     * @param seMm standard error of the mean width
     * @param isApart whether the station does not lie in the host bone and is reported apart: it does not count in the
     *     figures of the zone (iliac and S2-alar-iliac screws; with other screws such a station has no width)
     */
    public record Station(double atMm, Stated meanMm, Stated maxMm, Stated seMm, boolean isApart) {}

    /**
     * One cell of the unrolled surface.
     *
     * @param atMm middle of the cell along the screw, from the head point
     * @param lengthMm length of the cell along the screw
     * @param angleDeg middle of the cell round the axis, 0 = as cranial as can be, right-handed about head → tip
     * @param widthDeg width of the cell round the axis
     * @param zoneMm width of the zone; empty where nothing can be said
     * @param seMm its standard error
     * @param why why nothing can be said; empty where something is
     */
    public record Sector(
            double atMm,
            double lengthMm,
            double angleDeg,
            double widthDeg,
            OptionalDouble zoneMm,
            OptionalDouble seMm,
            String why) {}
}
