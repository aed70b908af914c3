package org.holdfast.measure;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;

/**
 * Continuity of a rod or screw in one exam. Immutable.
 *
 * @param breaks breaks seen, along the part; empty does not exclude one under {@code smallestVisibleBreakMm}
 * @param smallestVisibleBreakMm the narrowest break, along the axis, that this scan shows
 * @param bendChangeDeg change of the part's bend since the reference exam; empty on the reference exam
 * @param isBent whether that is a plastic bend beyond error
 * @param plateauHu the part's own plateau
 * @param isClipped whether the plateau lies at the scale's ceiling
 * @param stations along the centre line, for the straightened view and its profile
 * @param unassessed stretches in which a break could not be seen, each with its cause; in order along the part
 * @param caution what else limits the statement, such as artefact reduction that may hide a break; empty for nothing
 */
public record Continuity(
        List<Break> breaks,
        Stated smallestVisibleBreakMm,
        Optional<Double> bendChangeDeg,
        boolean isBent,
        Stated plateauHu,
        boolean isClipped,
        List<Station> stations,
        List<Unassessed> unassessed,
        String caution) {

    public Continuity {
        breaks = List.copyOf(breaks);
        stations = List.copyOf(stations);
        unassessed = List.copyOf(unassessed);
        Objects.requireNonNull(caution, "caution");
    }

    /** A part that is assessed over its whole length, without caution. */
    public Continuity(
            List<Break> breaks,
            Stated smallestVisibleBreakMm,
            Optional<Double> bendChangeDeg,
            boolean isBent,
            Stated plateauHu,
            boolean isClipped,
            List<Station> stations) {
        this(breaks, smallestVisibleBreakMm, bendChangeDeg, isBent, plateauHu, isClipped, stations, List.of(), "");
    }

    /** How sure a break is. */
    public enum Status {
        CONFIRMED,
        /** Seen on an artefact-reduced series, or one of which that is unknown, only. */
        UNCONFIRMED
    }

    /**
     * One break.
     *
     * @param atMm distance along the centre line from the part's first point (head of a screw)
     * @param pointMm place in patient space of the exam
     * @param gapAlongAxisMm width along the axis
     * @param gapPerpendicularMm width perpendicular to the cut, where its tilt can be fitted
     * @param stepMm lateral step
     * @param angulationDeg angle between the two ends beyond the reference exam's bend
     * @param isDisplaced whether the ends are displaced
     * @param status how sure it is
     */
    public record Break(
            double atMm,
            PatientPoint pointMm,
            Stated gapAlongAxisMm,
            Stated gapPerpendicularMm,
            Stated stepMm,
            Stated angulationDeg,
            boolean isDisplaced,
            Status status) {}

    /**
     * One place along the centre line.
     *
     * @param atMm distance along the laid-out centre line
     * @param pointMm centroid of the metal, in patient space of the exam
     * @param areaMm2 area of metal across
     * @param coreHu HU in the core; NaN outside the image
     * @param isKnownJoint whether a known joint (screw head, connector, tip) explains a change here
     */
    public record Station(double atMm, PatientPoint pointMm, double areaMm2, double coreHu, boolean isKnownJoint) {}

    /**
     * A stretch in which a break could not be seen.
     *
     * @param fromMm start along the laid-out centre line
     * @param toMm end, not before the start
     * @param why the cause, in words
     */
    public record Unassessed(double fromMm, double toMm, String why) {

        public Unassessed {
            if (!(fromMm <= toMm)) {
                throw new IllegalArgumentException(
                        "a stretch must not end before it starts, got [" + fromMm + ", " + toMm + "]");
            }
        }
    }
}
