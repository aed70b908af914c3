package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of bone in the pores.
 *
 * @param layerMarginMm distance kept from both borders of the porous layer, mm
 * @param boneFromMm depth from the implant's edge at which bone is read for reference, from, mm
 * @param boneToMm the same, to, mm
 */
public record PorousSettings(double layerMarginMm, double boneFromMm, double boneToMm) {

    public PorousSettings {
        requireWithin("layerMarginMm", layerMarginMm, 0, 2);
        requireWithin("boneFromMm", boneFromMm, 0.5, 10);
        requireWithin("boneToMm", boneToMm, boneFromMm + 0.5, 20);
    }

    /** The values of the measurement definitions. */
    public static PorousSettings withDefaults() {
        return new PorousSettings(0.5, 3, 8);
    }
}
