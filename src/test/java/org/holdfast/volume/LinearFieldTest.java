package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.Test;

/** A field that is linear in patient space is what trilinear sampling reproduces exactly, on any grid. */
class LinearFieldTest {

    private static final double ROUNDING = 1e-8;

    /** Whole HU at every voxel of the grids below, whose voxels lie on quarters of a mm. */
    private static double field(PatientPoint p) {
        return 40 * p.x() - 80 * p.y() + 20 * p.z() + 100;
    }

    private static void assertReproduced(VolumeGrid grid) {
        HuVolume volume = TestGrids.volume(grid, (i, j, k) -> {
            double hu = field(grid.voxelToPatient(new VoxelIndex(i, j, k)));
            assertEquals(Math.rint(hu), hu, ROUNDING, "the field must be whole at the voxels");
            return (int) Math.rint(hu);
        });
        Random random = new Random(17);
        int inside = 0;
        for (int n = 0; n < 2000; n++) {
            PatientPoint p = grid.voxelToPatient(new VoxelCoord(
                    random.nextDouble() * (grid.columns() - 1),
                    random.nextDouble() * (grid.rows() - 1),
                    random.nextDouble() * (grid.slices() - 1)));
            double sampled = volume.sample(p);
            if (!Double.isNaN(sampled)) {
                inside++;
                // Phantom: the field itself
                assertEquals(field(p), sampled, ROUNDING);
            }
        }
        assertTrue(inside > 1500, inside + " of 2000 points were inside");
    }

    @Test
    void isReproducedOnAnAnisotropicGrid() {
        assertReproduced(new VolumeGrid(
                16,
                12,
                0.5,
                0.75,
                TestGrids.X,
                TestGrids.Y,
                TestGrids.origins(new PatientPoint(-3, 2, 5), new org.holdfast.geometry.PatientVector(0, 0, 1.25), 9)));
    }

    @Test
    void isReproducedOnAShearedAndTurnedGrid() {
        // By hand: 0.5·(0.6, 0.8), 0.75·(−0.8, 0.6) and (−0.4, 0.3, 2) are whole twentieths; 40, 80, 20 make them whole
        assertReproduced(TestGrids.shearedAndTurned());
    }

    @Test
    void isReproducedOnAnIrregularShearedGridOutsideItsHole() {
        assertReproduced(TestGrids.irregularWithHole());
    }

    @Test
    void isReproducedOnASagittalStack() {
        assertReproduced(new VolumeGrid(
                10,
                12,
                0.5,
                0.75,
                TestGrids.Y,
                TestGrids.Z.times(-1),
                List.of(new PatientPoint(4, 0, 9), new PatientPoint(3, 0.5, 9), new PatientPoint(2, 1, 9))));
    }
}
