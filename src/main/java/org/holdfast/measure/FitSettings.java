package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

/**
 * Thresholds of the estimators by fit.
 *
 * @param contactGapMm a fitted gap under this, with bone behind it, is contact
 * @param maxGapSeMm a gap whose standard error is larger cannot be assessed
 * @param maxMisfit a profile that lies further from its model cannot be assessed: root mean square of the residuals over
 *     the noise
 * @param columnRadiusMm radius of the column of voxels round a sample's normal that is fitted together
 * @param fluidSdHu standard deviation with which the HU in a gap are known
 * @param sigmaShare standard deviation with which the point spread is known, as a share of it, where its source gives none
 * @param edgeSdMm standard deviation with which the reference exam's edge is known in a later exam
 */
public record FitSettings(
        double contactGapMm,
        double maxGapSeMm,
        double maxMisfit,
        double columnRadiusMm,
        double fluidSdHu,
        double sigmaShare,
        double edgeSdMm) {

    public FitSettings {
        requireWithin("contactGapMm", contactGapMm, 0.05, 3);
        requireWithin("maxGapSeMm", maxGapSeMm, 0.05, 3);
        requireWithin("maxMisfit", maxMisfit, 1, 100);
        requireWithin("columnRadiusMm", columnRadiusMm, 0.2, 3);
        requireWithin("fluidSdHu", fluidSdHu, 0, 200);
        requireWithin("sigmaShare", sigmaShare, 0, 0.5);
        requireWithin("edgeSdMm", edgeSdMm, 0.01, 2);
    }

    /** The values of the measurement definitions, and for what they leave open those of decision 0032. */
    public static FitSettings withDefaults() {
        return new FitSettings(0.5, 0.5, 4, 0.85, 20, 0.1, 0.15);
    }
}
