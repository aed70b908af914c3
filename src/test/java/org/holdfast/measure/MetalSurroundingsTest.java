package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/** A metal block of HU 3000 from 10 to 20 mm on all axes and a porous one of HU 1500 beside it, pixels of 1 mm. */
class MetalSurroundingsTest {

    private static final int SIDE = 45;
    /** Diagonal of a cell of 0.8 mm. */
    private static final double DIAGONAL_MM = 0.8 * Math.sqrt(3);

    private static final HuVolume VOLUME = volume();

    @Test
    void holdsMetalAndItsMarginAndLittleMore() {
        MetalSurroundings metal = surroundings(p -> false, 1);
        double margin = MotionSettings.withDefaults().metalMarginMm();
        for (double x = 5; x < 40; x += 0.37) {
            double outside = Math.max(0, Math.max(10 - x, x - 20));
            boolean held = metal.holds(new PatientPoint(x, 15, 15));
            // Phantom: distance to the block along x; a cell's diagonal is left open either way.
            if (outside <= margin) {
                assertTrue(held, "at " + x);
            } else if (outside > margin + DIAGONAL_MM) {
                assertFalse(held, "at " + x);
            }
        }
    }

    @Test
    void holdsWhatIsInsideWhateverTheBox() {
        // By hand: lengths that are no whole number of cells, so that a count computed twice would differ by one.
        for (double margin = 0.1; margin < 3; margin += 0.13) {
            MetalSurroundings metal = surroundings(p -> false, margin);
            for (int at = 10; at <= 20; at++) {
                assertTrue(metal.holds(new PatientPoint(at, at, at)), margin + " mm, at " + at);
            }
            assertFalse(metal.holds(new PatientPoint(40, 40, 40)));
        }
    }

    @Test
    void porousMetalCountsInsideALaidOutPartOnly() {
        PatientPoint inPorous = new PatientPoint(33, 15, 15);
        assertFalse(surroundings(p -> false, 1).holds(inPorous));
        assertTrue(surroundings(p -> p.x() > 28, 1).holds(inPorous));
    }

    @Test
    void boxHoldsThePointsWithItsMargin() {
        List<PatientPoint> box =
                MetalSurroundings.boxRound(List.of(new PatientPoint(1, 5, 3), new PatientPoint(4, 2, 6)), 2);
        // By hand: least 1, 2, 3 minus 2 and largest 4, 5, 6 plus 2.
        assertEquals(new PatientPoint(-1, 0, 1), box.get(0));
        assertEquals(new PatientPoint(6, 7, 8), box.get(1));
    }

    private static MetalSurroundings surroundings(MetalSurroundings.Inside inside, double marginMm) {
        List<PatientPoint> box =
                List.of(new PatientPoint(-marginMm, -marginMm, -marginMm), new PatientPoint(44, 44 + marginMm, 44));
        return MetalSurroundings.of(VOLUME, box, inside, MeasurementSettings.withDefaults(), Progress.NONE);
    }

    private static HuVolume volume() {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[SIDE][SIDE * SIDE];
        for (int k = 0; k < SIDE; k++) {
            origins.add(new PatientPoint(0, 0, k));
            Arrays.fill(hu[k], (short) 40);
            for (int j = 10; j <= 20; j++) {
                for (int i = 10; i <= 36; i++) {
                    boolean inHeight = k >= 10 && k <= 20;
                    hu[k][i + SIDE * j] = (short) (!inHeight ? 40 : i <= 20 ? 3000 : i >= 30 ? 1500 : 40);
                }
            }
        }
        VolumeGrid grid = new VolumeGrid(SIDE, SIDE, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        return HuVolume.ofHu(grid, hu);
    }
}
