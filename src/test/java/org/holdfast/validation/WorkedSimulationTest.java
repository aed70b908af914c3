package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsException;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/**
 * The simulation by which the measurement definitions show that a threshold number means nothing without its smallest
 * visible gap: porous faces 2100 HU, cortical rim 700, trabecular 260, fluid 20 HU; σ 0.35 in plane and 0.40 mm along the
 * table, voxels 0.45 × 0.6 mm, noise 25 HU; a quarter of the face each with gaps 0, 0.6, 1.5 and 3.0 mm. That simulation
 * was made by other code; its figures are printed to two decimals.
 */
class WorkedSimulationTest {

    /** The definitions do not give the face's size or the phase of the grid; a border may read 0.5 mm too far. */
    private static final double TOLERANCE = 0.05;

    private static final double HALF_MM = 12;

    @Test
    void thresholdAndGuardMoveTheFractionAsInTheDefinitions() throws SettingsException {
        ThresholdContact middle = measure("{\"boneThreshold\":\"FIXED\",\"fixedBoneHu\":250,\"fluidHu\":20}");
        // Source: measurement definitions, section 3: 0.53 for (250 HU, 0.8 mm).
        assertEquals(0.53, middle.fraction().value().orElseThrow(), TOLERANCE);
        // Source: measurement definitions, section 3 step 5: 1.35 mm for 250 HU at 0.8 mm.
        assertEquals(1.35, middle.smallestVisibleGapMm().value().orElseThrow(), 0.1);

        ThresholdContact far = measure(
                "{\"boneThreshold\":\"FIXED\",\"fixedBoneHu\":250,\"fluidHu\":20,\"guardPorousTitaniumMm\":1.0}");
        // Source: measurement definitions, section 3: 0.75 for (250 HU, 1.0 mm).
        assertEquals(0.75, far.fraction().value().orElseThrow(), TOLERANCE);
        assertTrue(far.smallestVisibleGapMm().value().orElseThrow() > 1.5);
    }

    @Test
    void refusesWhereTheThresholdLosesBoneOnTheImplant() throws SettingsException {
        ThresholdContact high = measure(
                "{\"boneThreshold\":\"FIXED\",\"fixedBoneHu\":350,\"fluidHu\":20,\"guardPorousTitaniumMm\":1.0}");
        // Source: measurement definitions, section 3: 0.30 for (350 HU, 1.0 mm); that is the quarter with a gap of 0.6
        // mm,
        // bone on the implant is lost, so no fraction is stated and only the map shows it.
        assertEquals(0.30, high.low(), TOLERANCE);
        assertTrue(high.fraction().value().isEmpty());
        assertEquals(
                "estimator does not apply: bone below threshold beyond guard",
                high.fraction().why());
    }

    private static ThresholdContact measure(String settings) throws SettingsException {
        return ContactValidation.measure(scene(), SettingsJson.parse(settings, "test"));
    }

    private static ContactScene scene() {
        InterfaceSpec spec = InterfaceSpec.withDefaults()
                .sized(HALF_MM, HALF_MM, 12)
                .implant(3, 2100, 7500)
                .bone(0.8, 700, 260, 20)
                .facing(PatientVector.CRANIAL, 0, 0);
        GapPattern quarters = new GapPattern(
                new double[] {-HALF_MM, 0, HALF_MM},
                new double[] {-HALF_MM, 0, HALF_MM},
                new double[][] {{0, 0.6}, {1.5, 3.0}});
        PointSpread spread = new PointSpread(0.35, 0.40);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 60; k++) {
            origins.add(new PatientPoint(-17.7, -17.7, -17.85 + 0.6 * k));
        }
        VolumeGrid grid = new VolumeGrid(79, 79, 0.45, 0.45, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        return new ContactScene(
                InterfaceScene.of(spec, quarters),
                new ScanSettings(grid, spread, 25, 20_260_101, HuScale.EXTENDED_30710),
                Material.TITANIUM_POROUS,
                spread);
    }

    @Test
    void defaultsAreThoseOfTheDefinitions() {
        MeasurementSettings defaults = MeasurementSettings.withDefaults();
        // Source: measurement definitions, section 3: guard of porous titanium, thresholds of edge and artefact.
        assertEquals(0.8, defaults.guardPorousTitaniumMm(), 0);
        // Source: the same.
        assertEquals(1000, defaults.implantMinHu(), 0);
        // Source: the same.
        assertEquals(-200, defaults.darkHu(), 0);
        // Source: the same.
        assertEquals(350, defaults.maxBoneHu(), 0);
    }
}
