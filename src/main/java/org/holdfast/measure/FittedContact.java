package org.holdfast.measure;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Interface contact by fit of one face in one exam. Fractions are area-weighted, 0 to 1. Immutable.
 *
 * @param fraction contact over assessable area
 * @param low contact over the whole area: if nothing that is hidden were contact
 * @param high (contact + not assessable) over the whole area: if all that is hidden were contact
 * @param ofOppositeBone contact over the assessable area that lay opposite host bone on the reference exam
 * @param bridged contact that is connected with host bone in depth, over what can be assessed for that
 * @param notAssessable share of the area where nothing can be said
 * @param obstacles share of the area by cause
 * @param smallestVisibleGapMm the smallest gap that the fit tells from contact in this scan, mm
 * @param gapMm fitted widths of the gap over the assessable area, contact included
 * @param gapSeMm median standard error of a sample's gap
 * @param boneHu bone threshold used
 * @param areaMm2 area of the face
 * @param readings one a sample, for the face-on map
 */
public record FittedContact(
        Stated fraction,
        Stated low,
        Stated high,
        Stated ofOppositeBone,
        Stated bridged,
        double notAssessable,
        Map<Obstacle, Double> obstacles,
        Stated smallestVisibleGapMm,
        ThresholdContact.Spread gapMm,
        Stated gapSeMm,
        double boneHu,
        double areaMm2,
        List<FittedReading> readings) {

    public FittedContact {
        Map<Obstacle, Double> ordered = new EnumMap<>(Obstacle.class);
        ordered.putAll(obstacles);
        obstacles = Collections.unmodifiableMap(ordered);
        readings = List.copyOf(readings);
    }
}
