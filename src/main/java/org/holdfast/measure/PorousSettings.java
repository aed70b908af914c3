package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of bone in the pores.
 *
 * @param layerMarginMm distance kept from both borders of the porous layer, mm
 * @param boneFromMm depth from the implant's edge at which bone is read for reference, from, mm
 * @param boneToMm the same, to, mm
 * @param blockMm width of the blocks of the face from which the standard error is taken, mm
 * @param rimMm what lies nearer to the component's rim is left out, as blur lets what lies beside it reach in, mm
 * @param minContrastHu bone must read so far over fluid for a share of it to be stated, HU
 */
public record PorousSettings(
        double layerMarginMm, double boneFromMm, double boneToMm, double blockMm, double rimMm, double minContrastHu) {

    public PorousSettings {
        requireWithin("layerMarginMm", layerMarginMm, 0, 2);
        requireWithin("boneFromMm", boneFromMm, 0.5, 10);
        requireWithin("boneToMm", boneToMm, boneFromMm + 0.5, 20);
        requireWithin("blockMm", blockMm, 1, 20);
        requireWithin("rimMm", rimMm, 0, 5);
        requireWithin("minContrastHu", minContrastHu, 5, 500);
    }

    /** The values of the measurement definitions; blocks, rim and contrast, which they leave open, by choice. */
    public static PorousSettings withDefaults() {
        return new PorousSettings(0.5, 3, 8, 5, 1.5, 30);
    }
}
