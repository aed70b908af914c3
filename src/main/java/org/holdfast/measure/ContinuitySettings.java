package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of breaks.
 *
 * @param stationMm step along the centre line, mm
 * @param dipShare a core dip deeper than this share of the plateau is a candidate (extended scale)
 * @param dipSd and deeper than so many times its local standard deviation
 * @param areaShare an area under this share of the median is a candidate (clipped scale)
 * @param areaLengthMm over at least this length, mm
 * @param stepShare a lateral step over this share of the diameter is a candidate
 * @param angulationDeg an angulation over this, beyond the reference exam's bend, is a candidate, degrees
 * @param angulationWithinMm within this length, mm
 * @param clippedDipShare a core that falls under the ceiling by more than this share of it is a candidate (clipped scale)
 * @param bendDeg a change of the part's bend over this is called plastic, degrees
 * @param jointReachMm metal beside the part is taken for a known joint within this distance of where the joint lies, mm
 * @param sameBreakMm breaks on two series no further apart along the part than this are one, mm
 */
public record ContinuitySettings(
        double stationMm,
        double dipShare,
        double dipSd,
        double areaShare,
        double areaLengthMm,
        double stepShare,
        double angulationDeg,
        double angulationWithinMm,
        double clippedDipShare,
        double bendDeg,
        double jointReachMm,
        double sameBreakMm) {

    public ContinuitySettings {
        requireWithin("stationMm", stationMm, 0.1, 1);
        requireWithin("dipShare", dipShare, 0.02, 0.9);
        requireWithin("dipSd", dipSd, 2, 20);
        requireWithin("areaShare", areaShare, 0.05, 0.95);
        requireWithin("areaLengthMm", areaLengthMm, 0.1, 5);
        requireWithin("stepShare", stepShare, 0.05, 1);
        requireWithin("angulationDeg", angulationDeg, 1, 45);
        requireWithin("angulationWithinMm", angulationWithinMm, 1, 20);
        requireWithin("clippedDipShare", clippedDipShare, 0.01, 0.9);
        requireWithin("bendDeg", bendDeg, 0.5, 45);
        requireWithin("jointReachMm", jointReachMm, 2, 30);
        requireWithin("sameBreakMm", sameBreakMm, 0.5, 10);
    }

    /** The values of the measurement definitions; the last four are this project's own choice. */
    public static ContinuitySettings withDefaults() {
        return new ContinuitySettings(0.25, 0.15, 5, 0.5, 0.5, 0.25, 5, 5, 0.05, 2, 12, 3);
    }
}
