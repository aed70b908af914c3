package org.holdfast.measure;

import static org.holdfast.measure.PublishedGrading.Use.ADAPTED;
import static org.holdfast.measure.PublishedGrading.Use.AS_PUBLISHED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class PublishedGradingTest {

    // Source: BMC Musculoskelet Disord 2022, s12891-022-05165-4: none to 2, mild over 2 to 4, severe over 4 mm.
    // Source: Pinter et al., Global Spine J 2023;13:1703: mild at most 2, moderate 2 to 4, severe from 4 mm.
    // Source: Marchi et al., J Neurosurg Spine 2013;19:110: 0–24, 25–49, 50–74, 75–100 %; half-open between.
    // Source: Aghayev et al., Eur Spine J 2014;23:689: 1.9° or more.
    // Source: Pijls et al., Acta Orthop 2012;83:583: at most 0.2, 0.2 to 1.0, from 1.0 mm.
    @ParameterizedTest
    @CsvSource({
        "OBLIQUE_LUMBAR_CAGE, 0, none",
        "OBLIQUE_LUMBAR_CAGE, 2.0, none",
        "OBLIQUE_LUMBAR_CAGE, 2.01, mild",
        "OBLIQUE_LUMBAR_CAGE, 4.0, mild",
        "OBLIQUE_LUMBAR_CAGE, 4.01, severe",
        "CERVICAL_CT, 2.0, mild",
        "CERVICAL_CT, 2.1, moderate",
        "CERVICAL_CT, 3.99, moderate",
        "CERVICAL_CT, 4.0, severe",
        "HEIGHT_SHARE, 0, 0",
        "HEIGHT_SHARE, 24.9, 0",
        "HEIGHT_SHARE, 25, I",
        "HEIGHT_SHARE, 49.9, I",
        "HEIGHT_SHARE, 50, II",
        "HEIGHT_SHARE, 74.9, II",
        "HEIGHT_SHARE, 75, III",
        "HEIGHT_SHARE, 100, III",
        "OVER_TWO_MM, 2.0, no",
        "OVER_TWO_MM, 2.01, yes",
        "SCREW_ANGLE, 1.8, no",
        "SCREW_ANGLE, 1.9, yes",
        "SCREW_ANGLE, 2.0, yes",
        "CUP_TWO_YEARS, 0.2, acceptable",
        "CUP_TWO_YEARS, 0.21, at risk",
        "CUP_TWO_YEARS, 0.99, at risk",
        "CUP_TWO_YEARS, 1.0, unacceptable"
    })
    void gradesAtItsBoundaries(PublishedGrading grading, double value, String expected) {
        String label = grading.grade(value, AS_PUBLISHED).value().orElseThrow().label();
        assertEquals(expected, label.substring(0, label.indexOf(" (")));
    }

    @ParameterizedTest
    @EnumSource
    void gradesNothingThatMovedTheOtherWay(PublishedGrading grading) {
        assertTrue(grading.grade(-0.01, AS_PUBLISHED).value().isEmpty());
        assertFalse(grading.grade(-0.01, AS_PUBLISHED).why().isBlank());
        assertThrows(IllegalArgumentException.class, () -> grading.grade(Double.NaN, AS_PUBLISHED));
    }

    @Test
    void endsWhereTheWholeHeightIsLost() {
        assertTrue(
                PublishedGrading.HEIGHT_SHARE.grade(100.1, AS_PUBLISHED).value().isEmpty());
    }

    @ParameterizedTest
    @EnumSource
    void saysItsSourceAndWhetherItIsAdapted(PublishedGrading grading) {
        String adapted = grading.grade(1, ADAPTED).value().orElseThrow().inWords();
        assertTrue(adapted.contains(grading.source()) && adapted.contains("adapted"), adapted);
        assertTrue(adapted.contains(grading.madeFor()), adapted);
        assertFalse(
                grading.grade(1, AS_PUBLISHED).value().orElseThrow().inWords().contains("adapted"));
    }

    // Source: Asian Spine J 2022;16:440: over 10° and at least 10° more than before the operation.
    @ParameterizedTest
    @CsvSource({"5, 15.1, true", "8, 15, false", "5, 10, false", "0, 10, false", "0, 10.1, true", "5, 15, true"})
    void proximalJunctionNeedsBothItsParts(double beforeDeg, double afterDeg, boolean expected) {
        assertEquals(expected, ProximalJunction.isKyphosis(beforeDeg, afterDeg));
    }
}
