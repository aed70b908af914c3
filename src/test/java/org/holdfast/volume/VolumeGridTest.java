package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class VolumeGridTest {

    /** Rounding of coordinates of some hundred mm. */
    private static final double ROUNDING = 1e-10;

    private static final PatientVector X = TestGrids.X;
    private static final PatientVector Y = TestGrids.Y;
    private static final PatientVector Z = TestGrids.Z;

    private static VolumeGrid ofHeights(double... z) {
        List<PatientPoint> origins = new ArrayList<>();
        for (double height : z) {
            origins.add(new PatientPoint(0, 0, height));
        }
        return new VolumeGrid(4, 4, 1, 1, X, Y, origins);
    }

    private static void assertPoint(double x, double y, double z, PatientPoint p) {
        assertEquals(x, p.x(), ROUNDING);
        assertEquals(y, p.y(), ROUNDING);
        assertEquals(z, p.z(), ROUNDING);
    }

    @Test
    void voxelCentreHasIntegerCoordinates() {
        VolumeGrid grid = TestGrids.anisotropic();

        // By hand: (−10 + 3·0.5, 20 + 4·0.75, 300 + 5·2)
        assertPoint(-8.5, 23, 310, grid.voxelToPatient(new VoxelIndex(3, 4, 5)));
        assertEquals(new VoxelCoord(3, 4, 5), grid.patientToVoxel(new PatientPoint(-8.5, 23, 310)));
    }

    @Test
    void cornerOfAVoxelIsHalfAVoxelOff() {
        VolumeGrid grid = TestGrids.anisotropic();

        // By hand: (−10 − 0.25, 20 − 0.375, 300 − 1)
        assertPoint(-10.25, 19.625, 299, grid.voxelToPatient(new VoxelCoord(-0.5, -0.5, -0.5)));
    }

    @Test
    void shearedGridStepsAlongTheImagePositions() {
        VolumeGrid grid = TestGrids.shearedAndTurned();

        // By hand: (5, −6, 7) + 2·0.5·(0.6, 0.8, 0) + 4·0.75·(−0.8, 0.6, 0) + 3·(−0.4, 0.3, 2)
        assertPoint(5 + 0.6 - 2.4 - 1.2, -6 + 0.8 + 1.8 + 0.9, 13, grid.voxelToPatient(new VoxelIndex(2, 4, 3)));
        // By hand: the step (−0.4, 0.3, 2) leans by atan(0.5 / 2) from the normal
        assertEquals(Math.toDegrees(Math.atan(0.25)), grid.shearDeg(), 1e-9);
        assertEquals(2, grid.pitchMm().orElseThrow(), ROUNDING);
        assertFalse(grid.isIrregular());
    }

    @Test
    void irregularGridKeepsTruePositions() {
        VolumeGrid grid = TestGrids.irregularWithHole();

        assertTrue(grid.isIrregular());
        // By hand: half-way between slices 2 (z 2) and 3 (z 3.5): z 2.75, y a quarter of it, and 2 rows of 0.25
        assertPoint(3 + 0.5, 0.6875 + 0.5, 2.75, grid.voxelToPatient(new VoxelCoord(1, 2, 2.5)));
        // By hand: steps 1 1 1.5 1 4 1 1 → median 1
        assertEquals(1, grid.pitchMm().orElseThrow(), ROUNDING);
        assertEquals(List.of(4), grid.holesAfter());
        assertTrue(grid.isHoleAfter(4));
    }

    @Test
    void goesThereAndBack() {
        Random random = new Random(5);
        for (VolumeGrid grid :
                List.of(TestGrids.anisotropic(), TestGrids.shearedAndTurned(), TestGrids.irregularWithHole())) {
            for (int n = 0; n < 500; n++) {
                VoxelCoord c = new VoxelCoord(
                        30 * random.nextDouble() - 5, 30 * random.nextDouble() - 5, 20 * random.nextDouble() - 4);

                VoxelCoord back = grid.patientToVoxel(grid.voxelToPatient(c));

                assertEquals(c.i(), back.i(), ROUNDING);
                assertEquals(c.j(), back.j(), ROUNDING);
                assertEquals(c.k(), back.k(), ROUNDING);
            }
        }
    }

    @Test
    void singleSliceMeasuresAlongItsNormalInMillimetres() {
        VolumeGrid grid = ofHeights(7);

        assertEquals(new VoxelCoord(1, 2, 3), grid.patientToVoxel(new PatientPoint(1, 2, 10)));
        assertTrue(grid.pitchMm().isEmpty());
        assertEquals(0, grid.shearDeg());
        assertThrows(IllegalArgumentException.class, () -> grid.voxelVolumeMm3(0));
    }

    @Test
    void refusesAFlippedOrder() {
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> ofHeights(2, 1));

        assertEquals(
                "slice positions must ascend along the normal, slice 1 lies at 1.0000 mm after 2.0000 mm",
                e.getMessage());
        assertThrows(IllegalArgumentException.class, () -> ofHeights(1, 1));
    }

    @Test
    void ascendsAlongItsOwnNormal() {
        List<PatientPoint> descending = List.of(new PatientPoint(0, 0, 2), new PatientPoint(0, 0, 1));

        // By hand: x × (−y) = −z, so heights 2, 1 ascend
        VolumeGrid grid = new VolumeGrid(4, 4, 1, 1, X, Y.times(-1), descending);

        assertEquals(-1, grid.normal().z());
        assertEquals(new VoxelCoord(1, 2, 0.25), grid.patientToVoxel(new PatientPoint(1, -2, 1.75)));
    }

    @Test
    void refusesBadSpacingSizesAndDirections() {
        List<PatientPoint> one = List.of(PatientPoint.ORIGIN);
        assertThrows(IllegalArgumentException.class, () -> new VolumeGrid(0, 4, 1, 1, X, Y, one));
        assertThrows(IllegalArgumentException.class, () -> new VolumeGrid(4, 4, 0, 1, X, Y, one));
        assertThrows(IllegalArgumentException.class, () -> new VolumeGrid(4, 4, 1, Double.NaN, X, Y, one));
        assertThrows(IllegalArgumentException.class, () -> new VolumeGrid(4, 4, 1, 1, X, Y, List.of()));
        assertThrows(
                IllegalArgumentException.class,
                () -> new VolumeGrid(4, 4, 1, 1, X, new PatientVector(0.002, 1, 0), one));
    }

    @Test
    void makesWrittenDirectionsOrthonormal() {
        PatientVector row = new PatientVector(0.99999, 0.0005, 0);
        VolumeGrid grid = new VolumeGrid(4, 4, 1, 1, row, Y, List.of(PatientPoint.ORIGIN));

        assertEquals(1, grid.rowDirection().norm(), ROUNDING);
        assertEquals(0, grid.rowDirection().dot(grid.columnDirection()), ROUNDING);
        assertEquals(0, grid.rowDirection().angleDegTo(row), 1e-9);
    }

    @Test
    void isIrregularBeyondOnePercentOfThePitch() {
        // By hand: pitch 2, tolerance 0.02; the middle slice is off the line from first to last by 0.019 and 0.021
        assertFalse(ofHeights(0, 2.019, 4).isIrregular());
        assertTrue(ofHeights(0, 2.021, 4).isIrregular());
    }

    @Test
    void isIrregularBeyondAHundredthOfAMillimetre() {
        // By hand: pitch 0.5, 1 % would be 0.005, the floor is 0.01
        assertFalse(ofHeights(0, 0.509, 1).isIrregular());
        assertTrue(ofHeights(0, 0.511, 1).isIrregular());
    }

    @Test
    void isIrregularWhereOneSliceIsShiftedSideways() {
        List<PatientPoint> origins =
                List.of(new PatientPoint(0, 0, 0), new PatientPoint(0.1, 0, 1), new PatientPoint(0, 0, 2));

        assertTrue(new VolumeGrid(4, 4, 1, 1, X, Y, origins).isIrregular());
    }

    @Test
    void takesRoundingOfWrittenPositionsOut() {
        VolumeGrid grid = ofHeights(0, 0.333, 0.667, 1);

        // By hand: within tolerance the slices lie at thirds
        assertEquals(1.0 / 3, grid.positionMm(1), ROUNDING);
        assertEquals(2.0 / 3, grid.sliceOrigin(2).z(), ROUNDING);
    }

    @Test
    void holeIsAStepOverOneAndAHalfTimesBothNeighbours() {
        assertEquals(List.of(2), ofHeights(0, 1, 2, 3.6, 4.6, 5.6).holesAfter());
        assertEquals(List.of(), ofHeights(0, 1, 2, 3.5, 4.5, 5.5).holesAfter());
        // By hand: two widths of step in one stack: 2.0 is over 1.5 × 1, not over 1.5 × 2
        assertEquals(List.of(), ofHeights(0, 1, 2, 4, 6, 8).holesAfter());
    }

    @Test
    void stepAtAnEndIsHeldAgainstItsNeighbourAndTheMedian() {
        assertEquals(List.of(0), ofHeights(0, 2, 3, 4, 5).holesAfter());
        assertEquals(List.of(3), ofHeights(0, 1, 2, 3, 5).holesAfter());
    }

    @Test
    void voxelExtentByDirection() {
        VolumeGrid grid = TestGrids.anisotropic();

        // By hand: 0.5 along x; 0.6·0.75 + 0.8·2 = 2.05 along (0, 0.6, 0.8)
        assertEquals(0.5, grid.voxelExtentMm(X), ROUNDING);
        assertEquals(2.05, grid.voxelExtentMm(new PatientVector(0, 0.6, -0.8)), ROUNDING);
        assertEquals(2, grid.voxelExtentMm(Z), ROUNDING);
    }

    @Test
    void voxelVolumeReachesHalfWayToEachNeighbour() {
        VolumeGrid grid = TestGrids.irregularWithHole();

        // By hand: pixels 0.125 mm²; slice 3: half of 1.5 + 1; slice 0: its only step
        assertEquals(0.125 * 1.25, grid.voxelVolumeMm3(3), ROUNDING);
        assertEquals(0.125, grid.voxelVolumeMm3(0), ROUNDING);
    }

    @Test
    void containsItsVoxelsOnly() {
        VolumeGrid grid = TestGrids.anisotropic();

        assertTrue(grid.contains(new VoxelIndex(19, 15, 11)));
        assertFalse(grid.contains(new VoxelIndex(20, 15, 11)));
        assertFalse(grid.contains(new VoxelIndex(0, 0, -1)));
    }

    @Test
    void positionsAreACopy() {
        VolumeGrid grid = TestGrids.anisotropic();
        grid.positionsMm()[0] = 99;

        assertEquals(300, grid.positionsMm()[0]);
    }
}
