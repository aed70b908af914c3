package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Slab.Projection;
import org.junit.jupiter.api.Test;

class ReslicerTest {

    /** Weights are kept to 2^−20 on three axes over at most 4096 HU; floats near 4096 are 0.0003 apart. */
    private static final double WEIGHT_ROUNDING = 3 * 4096.0 / (1 << 20) + 5e-4;

    private static void assertSameAsSampling(HuVolume volume, CutPlane plane, String what) {
        Cut cut = Reslicer.cut(volume, plane, Optional.empty());
        for (int y = 0; y < plane.height(); y++) {
            for (int x = 0; x < plane.width(); x++) {
                double expected = volume.sample(plane.pixelToPatient(x, y));
                float got = cut.hu(x, y);
                int column = x;
                int row = y;
                assertEquals(
                        expected, got, WEIGHT_ROUNDING, () -> what + ", " + plane + " pixel " + column + ", " + row);
            }
        }
    }

    /** Planes through a grid in voxel steps, so that they meet voxels exactly, run between them, and leave the grid. */
    private static List<CutPlane> planes(VolumeGrid grid) {
        List<CutPlane> planes = new ArrayList<>();
        double[][] starts = {{0, 0, 0}, {1, 2, 3}, {0.5, 0.25, 0.75}, {-2.3, -1.7, -1.1}, {3.2, 4, 2.6}};
        double[][] steps = {
            {1, 0, 0},
            {0, 1, 0},
            {0, 0, 1},
            {0.37, 0, 0},
            {0, 0.41, 0},
            {0, 0, 0.23},
            {-0.7, 0, 0},
            {0, -0.6, 0},
            {0.6, 0.5, 0},
            {0.3, 0, 0.2},
            {0, 0.4, -0.3},
            {0.31, 0.27, 0.19},
            {2.5, 0, 0},
            {-0.2, 0.5, 0.35}
        };
        Random random = new Random(23);
        for (double[] start : starts) {
            for (double[] right : steps) {
                double[] down = steps[random.nextInt(steps.length)];
                if (Arrays.equals(right, down) || parallel(right, down)) {
                    continue;
                }
                PatientPoint origin = grid.voxelToPatient(new VoxelCoord(start[0], start[1], start[2]));
                planes.add(new CutPlane(origin, step(grid, right), step(grid, down), 37, 29));
            }
        }
        // The far faces of the grid, exactly.
        VoxelCoord far = new VoxelCoord(grid.columns() - 1, grid.rows() - 1, grid.slices() - 1);
        for (double[][] pair : new double[][][] {
            {{-0.5, 0, 0}, {0, -0.5, 0}},
            {{0, -0.5, 0}, {0, 0, -0.5}},
            {{-0.5, 0, 0}, {0, 0, -0.5}},
            {{-0.5, -0.25, 0}, {0, 0, -0.5}},
            {{-0.5, -0.25, 0}, {-0.25, 0.5, 0}}
        }) {
            planes.add(new CutPlane(grid.voxelToPatient(far), step(grid, pair[0]), step(grid, pair[1]), 37, 29));
        }
        return planes;
    }

    private static boolean parallel(double[] a, double[] b) {
        return new PatientVector(a[0], a[1], a[2])
                        .cross(new PatientVector(b[0], b[1], b[2]))
                        .norm()
                < 1e-9;
    }

    /** A step in voxels as a vector; the third axis is the mean step between slices. */
    private static PatientVector step(VolumeGrid grid, double[] voxels) {
        int last = grid.slices() - 1;
        PatientVector slice = last == 0
                ? grid.normal()
                : grid.sliceOrigin(last).minus(grid.sliceOrigin(0)).times(1.0 / last);
        return grid.rowDirection()
                .times(voxels[0] * grid.columnSpacingMm())
                .plus(grid.columnDirection().times(voxels[1] * grid.rowSpacingMm()))
                .plus(slice.times(voxels[2]));
    }

    private static void assertSameOnAllPlanes(VolumeGrid grid, String what) {
        for (double share : new double[] {0, 0.03}) {
            HuVolume volume = TestGrids.noise(grid, share, 29);
            for (CutPlane plane : planes(grid)) {
                assertSameAsSampling(volume, plane, what);
            }
        }
    }

    @Test
    void equalsSamplingOnAnAnisotropicGrid() {
        assertSameOnAllPlanes(TestGrids.anisotropic(), "anisotropic");
    }

    @Test
    void equalsSamplingOnAShearedAndTurnedGrid() {
        assertSameOnAllPlanes(TestGrids.shearedAndTurned(), "sheared");
    }

    @Test
    void equalsSamplingOnAnIrregularGridWithAHole() {
        assertSameOnAllPlanes(TestGrids.irregularWithHole(), "irregular");
    }

    @Test
    void equalsSamplingOnASingleSlice() {
        assertSameOnAllPlanes(
                new VolumeGrid(9, 8, 0.5, 0.75, TestGrids.X, TestGrids.Y, List.of(new PatientPoint(1, 2, 3))),
                "single slice");
    }

    @Test
    void equalsSamplingWithFractionalRescales() {
        VolumeGrid grid = TestGrids.shearedAndTurned();
        Random random = new Random(31);
        for (boolean uniform : new boolean[] {true, false}) {
            Rescale[] rescale = new Rescale[grid.slices()];
            for (int k = 0; k < rescale.length; k++) {
                rescale[k] = new Rescale(uniform ? 0.25 : 0.25 + 0.01 * k, -500);
            }
            HuVolume.Builder builder = HuVolume.builder(grid, new StoredFormat(16, false), rescale);
            for (int k = 0; k < grid.slices(); k++) {
                short[] words = new short[grid.columns() * grid.rows()];
                for (int n = 0; n < words.length; n++) {
                    words[n] = (short) random.nextInt(8000);
                }
                builder.slice(k, words, new PaddingRange(0, 100));
            }
            HuVolume volume = builder.build();
            for (CutPlane plane : planes(grid)) {
                assertSameAsSampling(volume, plane, uniform ? "fractional" : "fractional, by slice");
            }
        }
    }

    @Test
    void equalsSamplingOnALargePictureWithBandsAndPatches() {
        VolumeGrid grid = TestGrids.shearedAndTurned();
        HuVolume volume = TestGrids.noise(grid, 0.02, 37);
        PatientPoint middle = grid.voxelToPatient(new VoxelCoord(8.5, 6.5, 5));

        assertSameAsSampling(
                volume,
                CutPlane.centredOn(
                        middle, new PatientVector(0.7, 0.2, 0.3), new PatientVector(-0.1, 0.65, 0.25), 0.06, 211, 163),
                "oblique");
        assertSameAsSampling(
                volume,
                CutPlane.centredOn(middle, grid.rowDirection(), grid.normal().times(-1), 0.09, 211, 163),
                "along rows");
        assertSameAsSampling(
                volume,
                CutPlane.centredOn(middle, grid.normal(), grid.columnDirection(), 0.09, 211, 163),
                "transposed");
    }

    @Test
    void neverMistakesTheHighestAndLowestValueForAnEmptyVoxel() {
        VolumeGrid grid = TestGrids.anisotropic();
        HuVolume volume = TestGrids.volume(grid, (i, j, k) -> (i + j + k) % 2 == 0 ? 32767 : -1024);
        CutPlane plane = planes(grid).get(11);

        Cut cut = Reslicer.cut(volume, plane, Optional.empty());

        for (int y = 0; y < plane.height(); y++) {
            for (int x = 0; x < plane.width(); x++) {
                // The same weights over 33,791 HU.
                assertEquals(volume.sample(plane.pixelToPatient(x, y)), cut.hu(x, y), 9 * WEIGHT_ROUNDING);
            }
        }
    }

    @Test
    void aPlaneFarAwayIsEmpty() {
        VolumeGrid grid = TestGrids.anisotropic();
        HuVolume volume = TestGrids.noise(grid, 0, 1);
        CutPlane plane = CutPlane.centredOn(new PatientPoint(1e6, -1e6, 0), TestGrids.X, TestGrids.Y, 1, 5, 5);

        for (float hu : Reslicer.cut(volume, plane, Optional.empty()).toArray()) {
            assertTrue(Float.isNaN(hu));
        }
    }

    @Test
    void slabsOfALinearFieldHaveClosedForms() {
        VolumeGrid grid = TestGrids.anisotropic();
        // By hand: HU = 10·(x + 10)/0.5 + 40·k, that is 20 HU/mm along x and 20 HU/mm along z
        HuVolume volume = TestGrids.volume(grid, (i, j, k) -> 10 * i + 40 * k);
        PatientVector right = TestGrids.Y;
        PatientVector down = new PatientVector(1, 0, -1).unit();
        PatientPoint middle = new PatientPoint(-5, 25, 311);
        CutPlane plane = CutPlane.centredOn(middle, right, down, 0.25, 9, 5);

        Cut mean = Reslicer.cut(volume, plane, Optional.of(new Slab(3, Projection.MEAN)));
        Cut maximum = Reslicer.cut(volume, plane, Optional.of(new Slab(3, Projection.MAXIMUM)));

        for (int y = 0; y < 5; y++) {
            for (int x = 0; x < 9; x++) {
                PatientPoint p = plane.pixelToPatient(x, y);
                double centre = 20 * (p.x() + 10) + 20 * (p.z() - 300);
                // Phantom: the mean is the value at the centre; the maximum lies 1.5 mm up the normal (1, 0, 1)/√2,
                // along which the field rises by 20·√2 HU/mm
                assertEquals(centre, mean.hu(x, y), 0.01);
                assertEquals(centre + 1.5 * 20 * Math.sqrt(2), maximum.hu(x, y), 0.01);
            }
        }
    }

    @Test
    void slabOfOneBrightSliceHasTheMeanOfATriangle() {
        HuVolume volume = TestGrids.volume(TestGrids.anisotropic(), (i, j, k) -> k == 5 ? 1000 : 0);
        CutPlane plane = CutPlane.centredOn(new PatientPoint(-5, 25, 310), TestGrids.X, TestGrids.Y, 0.5, 5, 5);

        // Phantom: the profile along z is a triangle of height 1000 and area 1000 · 2 mm; over 8 mm its mean is 250
        assertEquals(
                250,
                Reslicer.cut(volume, plane, Optional.of(new Slab(8, Projection.MEAN)))
                        .hu(2, 2),
                0.001);
        assertEquals(
                1000,
                Reslicer.cut(volume, plane, Optional.of(new Slab(8, Projection.MAXIMUM)))
                        .hu(2, 2),
                0.001);
    }

    @Test
    void slabCountsOnlyWhatIsInside() {
        HuVolume volume = TestGrids.volume(TestGrids.anisotropic(), (i, j, k) -> 100);
        CutPlane face = CutPlane.centredOn(new PatientPoint(-5, 25, 300), TestGrids.X, TestGrids.Y, 0.5, 3, 3);
        CutPlane above = CutPlane.centredOn(new PatientPoint(-5, 25, 290), TestGrids.X, TestGrids.Y, 0.5, 3, 3);
        Optional<Slab> slab = Optional.of(new Slab(6, Projection.MEAN));

        assertEquals(100, Reslicer.cut(volume, face, slab).hu(1, 1), 1e-4);
        assertTrue(Float.isNaN(Reslicer.cut(volume, above, slab).hu(1, 1)));
    }

    @Test
    void maximumOfNegativeValuesIsNotZero() {
        HuVolume volume = TestGrids.volume(TestGrids.anisotropic(), (i, j, k) -> -900);
        CutPlane plane = CutPlane.centredOn(new PatientPoint(-5, 25, 310), TestGrids.X, TestGrids.Y, 0.5, 3, 3);

        assertEquals(
                -900,
                Reslicer.cut(volume, plane, Optional.of(new Slab(4, Projection.MAXIMUM)))
                        .hu(1, 1),
                1e-3);
    }

    @Test
    void refusesASlabOfNoThicknessOrTooMuch() {
        HuVolume volume = TestGrids.volume(TestGrids.anisotropic(), (i, j, k) -> 0);
        CutPlane plane = CutPlane.centredOn(PatientPoint.ORIGIN, TestGrids.X, TestGrids.Y, 1, 3, 3);

        assertThrows(IllegalArgumentException.class, () -> new Slab(0, Projection.MEAN));
        assertThrows(
                IllegalArgumentException.class,
                () -> Reslicer.cut(volume, plane, Optional.of(new Slab(1e6, Projection.MEAN))));
    }
}
