package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

import java.util.Objects;

/**
 * Every threshold of a measurement, under its own name; stored with each result and printed in each report. Immutable.
 * No published HU threshold means "ingrown": these are settings, not facts.
 *
 * @param sampleSpacingMm distance between samples on a face
 * @param profileInsideMm how far a profile is read into the implant (at most half the part's thickness)
 * @param profileOutsideMm how far a profile is read beyond the face
 * @param profileStepMm step along a profile
 * @param implantMinHu plateau of the implant under a sample from which the implant is taken to be there
 * @param metalHu HU from which a voxel is metal
 * @param darkHu HU under which a place beside the implant is taken for a dark streak
 * @param fluidHu HU of fluid and scar in a gap
 * @param boneThreshold how the bone threshold is chosen
 * @param fixedBoneHu bone threshold where it is {@link BoneThreshold#FIXED}
 * @param maxBoneHu upper limit of a host-relative bone threshold
 * @param noiseMultiple a host-relative threshold lies at least so many noise SD above fluid
 * @param hostFromMm depth from the implant's edge at which host bone is read, from
 * @param hostToMm depth from the implant's edge at which host bone is read, to
 * @param edgeSearchMm the implant's edge is looked for so far on both sides of the laid-out patch
 * @param clippedEdgeHu on clipped data the edge is the crossing of the ceiling minus this
 * @param knownMetalHu true HU of the metal where it is known, for the edge on clipped data; 0 where it is not
 * @param guardPorousTitaniumMm nothing is concluded nearer to the edge than this: porous titanium
 * @param guardSolidTitaniumMm the same, solid titanium (at least; twice the voxel's extent if that is more)
 * @param guardOtherMm the same, anything else or clipped (at least; three times the voxel's extent if that is more)
 * @param artefactWindowMm length beyond the guard that must be free of dark streaks
 * @param boneWindowMm length over which HU are averaged when bone is looked for
 * @param contactWithinMm bone found within this distance of the guard's end is contact
 * @param gapLimitMm bone further from the edge than this is no bone
 * @param otherMetalMarginMm a profile is cut so far before it enters other metal
 * @param bridgingDepthMm depth at which host bone must be reached for bridging
 * @param bridgingMarginMm the patch's outline is grown by this when bridging is looked for
 * @param minAssessable share of a face that must be assessable for a fraction to be stated
 * @param frontMm thickness taken for the denser front of the host bone when its HU is estimated
 * @param fit estimators by fit
 * @param porous bone in the pores
 * @param change change map
 * @param lucency zone around a screw
 * @param continuity breaks
 * @param motion poses and migration
 * @param preset what the values are for; {@link SettingsPreset#AS_GIVEN} where they are those of no preset
 */
public record MeasurementSettings(
        double sampleSpacingMm,
        double profileInsideMm,
        double profileOutsideMm,
        double profileStepMm,
        double implantMinHu,
        double metalHu,
        double darkHu,
        double fluidHu,
        BoneThreshold boneThreshold,
        double fixedBoneHu,
        double maxBoneHu,
        double noiseMultiple,
        double hostFromMm,
        double hostToMm,
        double edgeSearchMm,
        double clippedEdgeHu,
        double knownMetalHu,
        double guardPorousTitaniumMm,
        double guardSolidTitaniumMm,
        double guardOtherMm,
        double artefactWindowMm,
        double boneWindowMm,
        double contactWithinMm,
        double gapLimitMm,
        double otherMetalMarginMm,
        double bridgingDepthMm,
        double bridgingMarginMm,
        double minAssessable,
        double frontMm,
        FitSettings fit,
        PorousSettings porous,
        ChangeSettings change,
        LucencySettings lucency,
        ContinuitySettings continuity,
        MotionSettings motion,
        SettingsPreset preset) {

    public MeasurementSettings {
        Objects.requireNonNull(boneThreshold, "boneThreshold");
        requireWithin("sampleSpacingMm", sampleSpacingMm, 0.1, 5);
        requireWithin("profileInsideMm", profileInsideMm, 1.5, 10);
        requireWithin("profileOutsideMm", profileOutsideMm, 5, 20);
        requireWithin("profileStepMm", profileStepMm, 0.02, 0.25);
        requireWithin("implantMinHu", implantMinHu, 200, 30000);
        requireWithin("metalHu", metalHu, 1000, 30000);
        requireWithin("darkHu", darkHu, -1000, 0);
        requireWithin("fluidHu", fluidHu, -100, 150);
        requireWithin("fixedBoneHu", fixedBoneHu, 20, 2000);
        requireWithin("maxBoneHu", maxBoneHu, 50, 2000);
        requireWithin("noiseMultiple", noiseMultiple, 0, 10);
        requireWithin("hostFromMm", hostFromMm, 1, 20);
        requireWithin("hostToMm", hostToMm, hostFromMm + 0.5, profileOutsideMm);
        requireWithin("edgeSearchMm", edgeSearchMm, 0.5, 5);
        requireWithin("clippedEdgeHu", clippedEdgeHu, 0, 2500);
        requireWithin("knownMetalHu", knownMetalHu, 0, 40000);
        requireWithin("guardPorousTitaniumMm", guardPorousTitaniumMm, 0.2, 5);
        requireWithin("guardSolidTitaniumMm", guardSolidTitaniumMm, 0.2, 5);
        requireWithin("guardOtherMm", guardOtherMm, 0.2, 5);
        requireWithin("artefactWindowMm", artefactWindowMm, 0.1, 5);
        requireWithin("boneWindowMm", boneWindowMm, 0.1, 3);
        requireWithin("contactWithinMm", contactWithinMm, 0, 2);
        requireWithin("gapLimitMm", gapLimitMm, 1, profileOutsideMm);
        requireWithin("otherMetalMarginMm", otherMetalMarginMm, 0, 5);
        requireWithin("bridgingDepthMm", bridgingDepthMm, 1, profileOutsideMm);
        requireWithin("bridgingMarginMm", bridgingMarginMm, 0, 10);
        requireWithin("minAssessable", minAssessable, 0, 1);
        requireWithin("frontMm", frontMm, 0.2, 2);
        Objects.requireNonNull(fit, "fit");
        Objects.requireNonNull(porous, "porous");
        Objects.requireNonNull(change, "change");
        Objects.requireNonNull(lucency, "lucency");
        Objects.requireNonNull(continuity, "continuity");
        Objects.requireNonNull(motion, "motion");
        Objects.requireNonNull(preset, "preset");
    }

    /** The values of the measurement definitions, which are made for a porous titanium face. */
    public static MeasurementSettings withDefaults() {
        return new MeasurementSettings(
                0.5,
                3,
                8,
                0.1,
                1000,
                2500,
                -200,
                30,
                BoneThreshold.HOST_RELATIVE,
                250,
                350,
                3,
                4,
                8,
                2,
                500,
                0,
                0.8,
                1.0,
                2.0,
                1.0,
                0.5,
                0.2,
                6,
                1.5,
                5,
                2,
                0.5,
                0.8,
                FitSettings.withDefaults(),
                PorousSettings.withDefaults(),
                ChangeSettings.withDefaults(),
                LucencySettings.withDefaults(),
                ContinuitySettings.withDefaults(),
                MotionSettings.withDefaults(),
                SettingsPreset.TITANIUM_POROUS);
    }
}
