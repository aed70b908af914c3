package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of the change map.
 *
 * @param windowMm length beyond the guard over which HU are averaged, mm
 * @param smoothingMm width over which differences are smoothed on the surface, mm
 * @param beyondSd a difference over so many standard deviations is a change
 * @param maxTurnDeg a face turned by more than this against the reference exam's grid is not comparable, degrees
 */
public record ChangeSettings(double windowMm, double smoothingMm, double beyondSd, double maxTurnDeg) {

    public ChangeSettings {
        requireWithin("windowMm", windowMm, 0.5, 5);
        requireWithin("smoothingMm", smoothingMm, 0, 10);
        requireWithin("beyondSd", beyondSd, 1, 6);
        requireWithin("maxTurnDeg", maxTurnDeg, 0, 45);
    }

    /** The values of the measurement definitions. */
    public static ChangeSettings withDefaults() {
        return new ChangeSettings(2, 2, 1.96, 5);
    }
}
