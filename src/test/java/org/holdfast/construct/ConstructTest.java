package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;

class ConstructTest {

    private final Construct construct = SampleConstruct.construct();

    @Test
    void namesAnIdThatItDoesNotHave() {
        assertEquals(
                "construct invented-subject has no component \"rod-right\"",
                assertThrows(IllegalArgumentException.class, () -> construct.component("rod-right"))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> construct.interfaceById("body"));
        assertThrows(IllegalArgumentException.class, () -> construct.bone("l5"));
    }

    @Test
    void refusesACallerLikeADocument() {
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> new Porous(1, 2));

        assertEquals("porosity: expected a fraction above 0 and below 1, got 1.0", e.getMessage());
    }

    @Test
    void componentIsInFromImplantationToRemoval() {
        Component screw = construct.component("screw-t12-left");

        assertFalse(screw.isInOn(LocalDate.of(2031, 2, 2)));
        assertTrue(screw.isInOn(LocalDate.of(2031, 2, 3)));
        assertTrue(screw.isInOn(LocalDate.of(2032, 2, 10)));
        assertFalse(screw.isInOn(LocalDate.of(2032, 2, 11)));
        assertTrue(construct.component("body").isInOn(LocalDate.of(2060, 1, 1)));
    }

    @Test
    void interfaceAreaIsTheSumOfItsPatches() {
        // By hand: rectangle 4·10·8 = 320; cap 2π·169·(1 − cos 40°) = 248.4277
        assertEquals(568.4277, construct.interfaceById("body-caudal").areaMm2(), 5e-5);
    }

    @Test
    void onlyMetalHasAMetalEdge() {
        assertTrue(Material.TITANIUM_POROUS.hasMetalEdge());
        assertTrue(Material.UNKNOWN.hasMetalEdge());
        assertFalse(Material.PEEK.hasMetalEdge());
        assertFalse(Material.CARBON.hasMetalEdge());
    }

    @Test
    void listsCannotBeChangedFromOutside() {
        assertThrows(
                UnsupportedOperationException.class,
                () -> construct.components().clear());
        assertThrows(
                UnsupportedOperationException.class,
                () -> construct.interfaces().get(0).patches().clear());
    }
}
