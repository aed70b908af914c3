package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;

class SpineSceneTest {

    private static final SpineScene IMPLANTED = SpineScene.asImplanted(150);

    @Test
    void holdsWhatTheConstructLaysOut() {
        RigidTransform place = RigidTransform.rotation(PatientVector.LEFT, 12, PatientPoint.ORIGIN)
                .then(RigidTransform.translation(new PatientVector(5, -100, 40)));
        Construct construct = SpineScene.construct(place);
        Scene scene = IMPLANTED.scene().moved(place);
        for (Component part : construct.components()) {
            PatientPoint inside = place.apply(
                    part.shape() instanceof ScrewShape screw
                            ? place.inverse().apply(screw.head().towards(screw.tip(), 0.6))
                            : PatientPoint.ORIGIN);
            assertEquals(DemoParts.SOLID_HU, scene.huAt(inside), part.id());
        }
    }

    @Test
    void movedVertebraTakesItsScrewsAlong() {
        RigidTransform up = RigidTransform.translation(new PatientVector(0, 0, 3));
        Scene scene = IMPLANTED
                .moved(up, RigidTransform.IDENTITY, RigidTransform.IDENTITY)
                .scene();
        PatientPoint tip = DemoParts.Screw.T12_LEFT.tip;
        // Phantom: 3 mm over the tip's axis, and 3 mm under it on the same side outside its radius of 2.75 mm.
        assertEquals(
                DemoParts.SOLID_HU,
                scene.huAt(tip.along(DemoParts.Screw.T12_LEFT.direction(), -3).along(PatientVector.CRANIAL, 5)));
        assertTrue(scene.huAt(tip.along(DemoParts.Screw.T12_LEFT.direction(), -3)) < 1000);
        PatientPoint other = DemoParts.Screw.L2_LEFT.head.towards(DemoParts.Screw.L2_LEFT.tip, 0.5);
        assertEquals(DemoParts.SOLID_HU, scene.huAt(other));
    }

    @Test
    void bodyGoesIntoItsBone() {
        RigidTransform down = RigidTransform.translation(new PatientVector(0, 0, -2.5));
        Scene scene = IMPLANTED
                .moved(RigidTransform.IDENTITY, RigidTransform.IDENTITY, down)
                .scene();
        // Phantom: 23 mm under the middle lies in the gap of 2 mm as implanted, in the porous layer 2.5 mm lower.
        PatientPoint under = new PatientPoint(0, 0, -22.9);
        assertEquals(DemoScene.FLUID_HU, IMPLANTED.scene().huAt(under));
        assertEquals(DemoParts.POROUS_HU, scene.huAt(under));
    }

    @Test
    void refusesABuildThatThereIsNot() {
        assertThrows(IllegalArgumentException.class, () -> new SpineScene.Build(1, 1, 1, 3, 2));
        assertThrows(IllegalArgumentException.class, () -> new SpineScene.Build(0, 1, 1, 4, 2));
    }
}
