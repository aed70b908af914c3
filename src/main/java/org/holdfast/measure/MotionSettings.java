package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of poses and migration.
 *
 * @param metalMarginMm metal is left out with so much round it when bone is registered, mm
 * @param boneReachMm a bone's region reaches so far from its interfaces and screws, mm
 * @param partLimitMm a part's own pose may lie so far from its group's, mm
 * @param partLimitDeg and be turned so far against it, degrees
 * @param repeatabilityMm 1.96 SD of a translation in double examinations, mm; 0 takes that of the simulated repeats
 * @param repeatabilityDeg the same of a rotation, degrees; 0 takes that of the simulated repeats
 */
public record MotionSettings(
        double metalMarginMm,
        double boneReachMm,
        double partLimitMm,
        double partLimitDeg,
        double repeatabilityMm,
        double repeatabilityDeg) {

    public MotionSettings {
        requireWithin("metalMarginMm", metalMarginMm, 0, 10);
        requireWithin("boneReachMm", boneReachMm, 5, 60);
        requireWithin("partLimitMm", partLimitMm, 0, 20);
        requireWithin("partLimitDeg", partLimitDeg, 0, 45);
        requireWithin("repeatabilityMm", repeatabilityMm, 0, 5);
        requireWithin("repeatabilityDeg", repeatabilityDeg, 0, 20);
    }

    /** The values of the measurement definitions. */
    public static MotionSettings withDefaults() {
        return new MotionSettings(3, 25, 5, 5, 0, 0);
    }
}
