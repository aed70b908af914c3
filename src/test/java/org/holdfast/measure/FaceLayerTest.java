package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Material;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Porous;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

final class FaceLayerTest {

    /** The step at which the component is followed inwards, mm, halved as thickness is. */
    private static final double HALF_STEP = 0.05;

    private static final MeasurementSettings SETTINGS = MeasurementSettings.withDefaults();

    /** A box of 20 × 20 mm and a thickness whose upper face is z = 0. */
    private static Component box(Material material, double thicknessMm, Optional<Porous> porous) {
        return new Component(
                "body",
                1,
                "body",
                ComponentKind.VERTEBRAL_BODY,
                material,
                LocalDate.of(2030, 1, 1),
                Optional.empty(),
                porous,
                new BoxShape(
                        new PatientPoint(0, 0, -0.5 * thicknessMm),
                        List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                        List.of(10.0, 10.0, 0.5 * thicknessMm)));
    }

    private static FaceLayer layer(Component component, double zMm, PatientVector normal) {
        List<PatchSample> samples = new PlanePatch(
                        PlanePatch.Outline.RECTANGLE,
                        new PatientPoint(0, 0, zMm),
                        PatientVector.LEFT,
                        PatientVector.POSTERIOR,
                        normal,
                        5,
                        5)
                .samples(1);
        return FaceLayer.of(component, samples, SETTINGS);
    }

    private static FaceLayer solid(double thicknessMm, double zMm) {
        return layer(box(Material.TITANIUM_SOLID, thicknessMm, Optional.empty()), zMm, PatientVector.CRANIAL);
    }

    @Test
    void readsAtMostHalfThePartsThickness() {
        // By hand: half of 4 mm; of 20 mm no more than the settings' 3 mm.
        assertEquals(2, solid(4, 0).insideMm(), HALF_STEP);
        assertEquals(3, solid(20, 0).insideMm(), 0);
        assertEquals(Optional.empty(), solid(4, 0).obstacle());
        assertEquals(Optional.of(Obstacle.LAYER_TOO_THIN), solid(1.8, 0).obstacle());
    }

    @Test
    void takesAFaceThatIsLaidOutALittleOffTheSurface() {
        for (double z : new double[] {-0.3, 0.3, 1.5}) {
            assertEquals(Optional.empty(), solid(20, z).obstacle(), "face at " + z);
            assertEquals(3, solid(20, z).insideMm(), 0);
        }
    }

    @Test
    void refusesAFaceThatIsNotOnItsComponent() {
        assertEquals(Optional.of(Obstacle.OFF_COMPONENT), solid(20, 5).obstacle());
        FaceLayer inwards =
                layer(box(Material.TITANIUM_SOLID, 20, Optional.empty()), 0, PatientVector.CRANIAL.times(-1));
        assertEquals(Optional.of(Obstacle.OFF_COMPONENT), inwards.obstacle());
    }

    @Test
    void takesTheGuardFromTheMaterial() {
        Component known = box(Material.TITANIUM_POROUS, 20, Optional.of(new Porous(0.7, 3)));
        Component unknownDepth = box(Material.TITANIUM_POROUS, 20, Optional.empty());
        for (Component porous : List.of(known, unknownDepth)) {
            // Source: measurement definitions, section 3, step 3: porous titanium 0.8 mm.
            assertEquals(0.8, layer(porous, 0, PatientVector.CRANIAL).guardMm(0.6, false, SETTINGS), 0);
        }
        // Source: the same, solid titanium max(1.0, 2 v), v = 0.6 mm.
        assertEquals(1.2, solid(20, 0).guardMm(0.6, false, SETTINGS), 0);
    }
}
