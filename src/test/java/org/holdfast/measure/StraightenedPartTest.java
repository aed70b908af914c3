package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.HuScale;
import org.holdfast.volume.Acquisition.Known;
import org.junit.jupiter.api.Test;

class StraightenedPartTest {

    private static final double HALF_WIDTH_MM = 6;
    private static final double SPACING_MM = 0.5;

    private static StraightenedPart stepped() {
        RigidTransform aside = RigidTransform.translation(new PatientVector(2, 0, 0));
        ExamScan exam = RodScan.scan(
                HuScale.EXTENDED_30710,
                Known.NO,
                List.of(
                        RodScan.cranialEnd(1, PatientVector.CRANIAL),
                        RodScan.caudalEnd(1, PatientVector.CRANIAL).moved(aside)));
        Construct construct = RodScan.construct(Material.TITANIUM_SOLID);
        Continuity seen = new ContinuityMeasure(
                        construct, construct.component("rod"), MeasurementSettings.withDefaults())
                .measureReference(exam)
                .continuity()
                .value()
                .orElseThrow();
        return StraightenedPart.of(exam.volume(), seen, PatientVector.LEFT, HALF_WIDTH_MM, SPACING_MM);
    }

    @Test
    void showsTheGapAndKeepsTheStep() {
        StraightenedPart straight = stepped();
        float[] hu = straight.firstPlane();
        // By hand: 6 mm in steps of 0.5 mm to both sides of the middle
        assertEquals(25, straight.width());
        assertEquals(straight.width() * straight.height(), hu.length);
        int gapRow = 80;
        // By hand: station 80 of 0.25 mm
        assertEquals(20, straight.atMm(gapRow), 1e-9);
        // By hand: σ with voxel and interpolation is 0.4² + 0.6²/4 = 0.5² mm²; 2 (1 − Φ(1 / 0.5)) = 4.6 % of 7500 HU at
        // most
        assertEquals(RodScan.TISSUE_HU, hu[12 + straight.width() * gapRow], 345);
        // Phantom: 7500 HU inside the rod
        assertEquals(RodScan.METAL_HU, hu[12 + straight.width() * 40], 150);
        double before = middleOfMetal(hu, straight, gapRow - 8);
        double after = middleOfMetal(hu, straight, gapRow + 8);
        // Phantom: the caudal end lies 2 mm to the left; the smoothed line follows a part of that on these 4 mm
        assertTrue(after - before > 1.2 && after - before < 2.1, () -> "step of " + (after - before) + " mm");
    }

    private static double middleOfMetal(float[] hu, StraightenedPart straight, int row) {
        double sum = 0;
        double weights = 0;
        for (int x = 0; x < straight.width(); x++) {
            double weight = Math.max(0, hu[x + straight.width() * row] - 3000);
            weights += weight;
            sum += weight * (x - 12) * SPACING_MM;
        }
        return sum / weights;
    }

    @Test
    void cutsAcrossTheLine() {
        StraightenedPart straight = stepped();
        float[] across = straight.cutAcross(40);
        int width = straight.width();
        int metal = 0;
        for (float hu : across) {
            metal += hu > 3770 ? 1 : 0;
        }
        assertEquals(width * width, across.length);
        // By hand: π · 2.71² = 23.1 mm² (half level of a blurred round surface) in cells of 0.25 mm² are 92
        assertEquals(92, metal, 6);
        // Phantom: outside the rod
        assertEquals(RodScan.TISSUE_HU, across[0], 120);
    }

    @Test
    void bothPlanesShareTheLine() {
        StraightenedPart straight = stepped();
        float[] first = straight.firstPlane();
        float[] second = straight.secondPlane();
        for (int row = 0; row < straight.height(); row++) {
            int middle = 12 + straight.width() * row;
            assertEquals(first[middle], second[middle], 0.01f);
        }
    }

    @Test
    void refusesImpossiblePictures() {
        ExamScan exam = RodScan.scan(HuScale.EXTENDED_30710, Known.NO, List.of());
        Continuity none = new Continuity(
                List.of(), Stated.not("none"), java.util.Optional.empty(), false, Stated.of(7000), false, List.of());
        assertThrows(
                IllegalArgumentException.class,
                () -> StraightenedPart.of(exam.volume(), none, PatientVector.LEFT, 6, 0.5));
        assertThrows(
                IllegalArgumentException.class,
                () -> StraightenedPart.of(exam.volume(), none, PatientVector.LEFT, 0, 0.5));
    }
}
