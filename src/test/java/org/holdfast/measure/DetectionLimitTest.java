package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DetectionLimitTest {

    private static final FaceLayer POROUS = new FaceLayer(3, -2.5, true, false);

    private static Stated limit(ProfileModel model, double boneHu, double guardMm) {
        SampleClassifier rule = new SampleClassifier(guardMm, boneHu, MeasurementSettings.withDefaults());
        return new DetectionLimit(rule, POROUS, Double.NaN, 0).find(model, 0).smallestVisibleGapMm();
    }

    /**
     * The worked simulation of the definitions: porous face 2100, front 700, trabecular 260, fluid 20 HU, σ 0.35 in plane
     * and 0.40 mm along the table, voxels 0.45 × 0.6 mm.
     */
    @ParameterizedTest
    @CsvSource({
        // Source: measurement definitions, section 3 step 5: 1.35 mm for 250 HU at a guard of 0.8 mm.
        "250, 0.8, 1.35, 0.05",
        // Source: the same: over 1.5 mm at a guard of 1.0 mm.
        "250, 1.0, 1.55, 0.05",
        // Source: the same: about 1.7 mm for a threshold of 150 HU.
        "150, 1.0, 1.75, 0.10"
    })
    void agreesWithTheWorkedSimulation(double boneHu, double guardMm, double expectedMm, double toleranceMm) {
        // By hand: in plane √(0.35² + 0.45²/12) = 0.373 mm, along the table √(0.40² + 0.6²/12) = 0.436 mm.
        for (double sigma : new double[] {0.373, 0.436}) {
            ProfileModel model = new ProfileModel(2100, 20, 700, 0.8, 260, sigma);
            assertEquals(expectedMm, limit(model, boneHu, guardMm).value().orElseThrow(), toleranceMm);
        }
    }

    @Test
    void refusesWhereBoneStaysUnderTheThreshold() {
        ProfileModel model = new ProfileModel(2100, 30, 130, 0.8, 130, 0.4);
        assertTrue(limit(model, 250, 0.8).value().isEmpty());
        assertEquals("bone below threshold beyond guard", limit(model, 250, 0.8).why());
    }

    @Test
    void refusesWhereTheImplantsBlurAloneReadsAsBone() {
        ProfileModel model = new ProfileModel(2100, 30, 160, 0.8, 160, 1.2);
        assertTrue(limit(model, 95, 0.8).why().contains("blur of the implant alone"));
    }
}
