package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of the change map.
 *
 * @param windowMm length beyond the guard over which HU are averaged, mm
 * @param smoothingMm width over which differences are smoothed on the surface, mm
 * @param beyondSd a difference over so many standard deviations is a change
 * @param maxTurnDeg a face turned by more than this against the reference exam's grid is not comparable, degrees
 * @param poseSdMm standard deviation of a pose's error at the face along each axis, for the map's error, mm
 * @param maxMotionMm metal that moved by more than this within the construct makes the streaks others, mm
 * @param maxMotionDeg or turned by more than this, degrees
 * @param disturbedWithinMm within this distance of a break, or of another part that moved, nothing is compared, mm
 */
public record ChangeSettings(
        double windowMm,
        double smoothingMm,
        double beyondSd,
        double maxTurnDeg,
        double poseSdMm,
        double maxMotionMm,
        double maxMotionDeg,
        double disturbedWithinMm) {

    public ChangeSettings {
        requireWithin("windowMm", windowMm, 0.5, 5);
        requireWithin("smoothingMm", smoothingMm, 0, 10);
        requireWithin("beyondSd", beyondSd, 1, 6);
        requireWithin("maxTurnDeg", maxTurnDeg, 0, 45);
        requireWithin("poseSdMm", poseSdMm, 0, 1);
        requireWithin("maxMotionMm", maxMotionMm, 0, 5);
        requireWithin("maxMotionDeg", maxMotionDeg, 0, 20);
        requireWithin("disturbedWithinMm", disturbedWithinMm, 0, 50);
    }

    /** The values of the measurement definitions; what they leave open is chosen in decision 0033. */
    public static ChangeSettings withDefaults() {
        return new ChangeSettings(2, 2, 1.96, 5, 0.05, 0.3, 0.5, 15);
    }
}
