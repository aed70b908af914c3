package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of the estimators by fit.
 *
 * @param contactGapMm a fitted gap under this, with bone behind it, is contact
 * @param maxGapSeMm a gap whose standard error is larger cannot be assessed
 */
public record FitSettings(double contactGapMm, double maxGapSeMm) {

    public FitSettings {
        requireWithin("contactGapMm", contactGapMm, 0.05, 3);
        requireWithin("maxGapSeMm", maxGapSeMm, 0.05, 3);
    }

    /** The values of the measurement definitions. */
    public static FitSettings withDefaults() {
        return new FitSettings(0.5, 0.5);
    }
}
