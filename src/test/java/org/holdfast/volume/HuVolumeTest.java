package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class HuVolumeTest {

    private static final double ROUNDING = 1e-9;

    /** Four voxels in a row, one row, one slice. */
    private static HuVolume row(StoredFormat format, Rescale rescale, PaddingRange padding, int... words) {
        VolumeGrid grid = new VolumeGrid(words.length, 1, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN));
        short[] stored = new short[words.length];
        for (int n = 0; n < words.length; n++) {
            stored[n] = (short) words[n];
        }
        return HuVolume.builder(grid, format, new Rescale[] {rescale})
                .slice(0, stored, padding)
                .build();
    }

    private static void assertHu(HuVolume volume, double... expected) {
        for (int i = 0; i < expected.length; i++) {
            assertEquals(expected[i], volume.hu(i, 0, 0), ROUNDING, "voxel " + i);
        }
    }

    @Test
    void readsWaterAndAirFromOrdinaryStorage() {
        HuVolume volume = row(new StoredFormat(12, false), new Rescale(1, -1024), null, 1024, 24, 0, 4095);

        // Source: definition of the Hounsfield scale: water 0, air −1000. By hand: stored − 1024
        assertHu(volume, 0, -1000, -1024, 3071);
    }

    @Test
    void readsFractionalRescale() {
        HuVolume volume = row(new StoredFormat(16, true), new Rescale(0.25, -0.5), null, 5, -3, 32767, -4000);

        // By hand: 1.25 − 0.5; −0.75 − 0.5; 8191.75 − 0.5; −1000.5
        assertHu(volume, 0.75, -1.25, 8191.25, -1000.5);
    }

    @Test
    void readsAnExtendedScale() {
        HuVolume volume = row(new StoredFormat(12, false), new Rescale(10, -10240), null, 1024, 4095, 922, 921);

        // By hand: 10·4095 − 10240 = 30710; 10·922 − 10240 = −1020; 10·921 − 10240 = −1030, below −1024
        assertHu(volume, 0, 30710, -1020, Double.NaN);
    }

    @Test
    void copiesAWholeSlice() {
        HuVolume volume = row(new StoredFormat(12, false), new Rescale(10, -10240), null, 1024, 4095, 922, 921);

        float[] slice = volume.copySlice(0, new float[4]);

        for (int i = 0; i < slice.length; i++) {
            // Phantom: the same voxels, one by one
            assertEquals(volume.hu(i, 0, 0), slice[i]);
        }
        assertThrows(IllegalArgumentException.class, () -> volume.copySlice(0, new float[5]));
    }

    @Test
    void readsUnsignedSixteenBits() {
        HuVolume volume = row(new StoredFormat(16, false), new Rescale(1, -1024), null, 65535, 0, 1024, 40000);

        // By hand: stored − 1024, the highest one step lower
        assertHu(volume, 64510, -1024, 0, 38976);
    }

    @Test
    void fullUnsignedRangeGivesUpItsHighestValueOnly() {
        HuVolume volume = row(new StoredFormat(16, false), new Rescale(0.5, 0), null, 0, 1, 65534, 65535);

        // By hand: 65,536 stored values and the mark for no tissue do not fit 16 bits; stored 65535 reads as 65534
        assertHu(volume, 0, 0.5, 32767, 32767);
    }

    @Test
    void fullSignedRangeGivesUpItsLowestValueOnly() {
        HuVolume volume = row(new StoredFormat(16, true), new Rescale(0.01, 0), null, -32768, -32767, -32766, 32767);

        // By hand: as above, stored −32768 reads as −32767
        assertHu(volume, -327.67, -327.67, -327.66, 327.67);
    }

    @Test
    void readsANegativeSlope() {
        HuVolume volume = row(new StoredFormat(12, false), new Rescale(-1, 1000), null, 0, 1000, 2024, 2025);

        assertHu(volume, 1000, 0, -1024, Double.NaN);
    }

    @Test
    void ignoresBitsAboveThoseStored() {
        HuVolume volume = row(new StoredFormat(12, false), new Rescale(1, 0), null, 0xF801, 0x1FFF, 0x0800);

        // By hand: the low 12 bits: 0x801, 0xFFF, 0x800
        assertHu(volume, 2049, 4095, 2048);
    }

    @Test
    void extendsTheSignOfTheBitsStored() {
        HuVolume volume = row(new StoredFormat(12, true), new Rescale(1, 0), null, 0x0FFF, 0xF7FF, 0x0C00);

        // By hand: 0xFFF = −1, 0x7FF = 2047, 0xC00 = −1024
        assertHu(volume, -1, 2047, -1024);
    }

    @Test
    void leavesPaddingOut() {
        HuVolume volume = row(new StoredFormat(16, true), new Rescale(1, 0), new PaddingRange(50, 60), 49, 50, 60, 61);

        assertHu(volume, 49, Double.NaN, Double.NaN, 61);
    }

    @Test
    void leavesValuesBelowTissueOut() {
        HuVolume volume = row(new StoredFormat(16, true), new Rescale(1, 0), null, -1024, -1025, -2000, -32768);

        assertHu(volume, -1024, Double.NaN, Double.NaN, Double.NaN);
    }

    @Test
    void appliesEachSlicesOwnRescale() {
        VolumeGrid grid = new VolumeGrid(
                1,
                1,
                1,
                1,
                TestGrids.X,
                TestGrids.Y,
                List.of(PatientPoint.ORIGIN, new PatientPoint(0, 0, 1), new PatientPoint(0, 0, 2)));
        Rescale[] rescale = {new Rescale(1, -1024), new Rescale(0.5, 0), new Rescale(2, 3)};
        HuVolume.Builder builder = HuVolume.builder(grid, new StoredFormat(12, false), rescale);
        for (int k = 2; k >= 0; k--) {
            builder.slice(k, new short[] {1001}, null);
        }
        HuVolume volume = builder.build();

        // By hand: 1001 − 1024; 500.5; 2005
        assertEquals(-23, volume.hu(0, 0, 0));
        assertEquals(500.5, volume.hu(0, 0, 1));
        assertEquals(2005, volume.hu(0, 0, 2));
        // By hand: half-way between −23 and 500.5
        assertEquals(238.75, volume.sample(new PatientPoint(0, 0, 0.5)), ROUNDING);
    }

    @Test
    void aSliceCutShortIsEmptyBehindWhatWasRead() {
        VolumeGrid grid = new VolumeGrid(4, 1, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN));
        HuVolume volume = HuVolume.builder(grid, new StoredFormat(16, true), new Rescale[] {new Rescale(1, 0)})
                .slice(0, new short[] {5, 6, 7, 8}, null, 2)
                .build();

        assertHu(volume, 5, 6, Double.NaN, Double.NaN);
    }

    @Test
    void refusesASliceOfAnotherSize() {
        HuVolume.Builder builder = HuVolume.builder(
                new VolumeGrid(3, 2, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN)),
                new StoredFormat(16, true),
                new Rescale[] {new Rescale(1, 0)});

        assertEquals(
                "slice 0 needs 6 words, got 5",
                assertThrows(IllegalArgumentException.class, () -> builder.slice(0, new short[5], null))
                        .getMessage());
        assertEquals(
                "slice 0 of 1 was not given",
                assertThrows(IllegalStateException.class, builder::build).getMessage());
    }

    @Test
    void refusesAnotherNumberOfRescales() {
        VolumeGrid grid = TestGrids.anisotropic();

        assertThrows(
                IllegalArgumentException.class,
                () -> HuVolume.builder(grid, new StoredFormat(16, true), new Rescale[] {new Rescale(1, 0)}));
    }

    @Test
    void refusesAVoxelOutsideTheGrid() {
        HuVolume volume = TestGrids.noise(TestGrids.anisotropic(), 0, 1);

        assertThrows(IndexOutOfBoundsException.class, () -> volume.hu(20, 0, 0));
        assertThrows(IndexOutOfBoundsException.class, () -> volume.hu(-1, 1, 0));
        assertThrows(IndexOutOfBoundsException.class, () -> volume.hu(0, 16, 0));
        assertThrows(IndexOutOfBoundsException.class, () -> volume.hu(new VoxelIndex(0, 0, 12)));
    }

    @Test
    void copiesTheHuItIsGiven() {
        short[][] hu = {{1, 2, 3}};
        HuVolume volume =
                HuVolume.ofHu(new VolumeGrid(3, 1, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN)), hu);
        Arrays.fill(hu[0], (short) 0);

        assertHu(volume, 1, 2, 3);
    }

    @Test
    void samplesTheVoxelAtItsCentre() {
        for (VolumeGrid grid :
                List.of(TestGrids.anisotropic(), TestGrids.shearedAndTurned(), TestGrids.irregularWithHole())) {
            HuVolume volume = TestGrids.noise(grid, 0.1, 3);
            for (int k = 0; k < grid.slices(); k++) {
                for (int j = 0; j < grid.rows(); j++) {
                    for (int i = 0; i < grid.columns(); i++) {
                        double sampled = volume.sample(grid.voxelToPatient(new VoxelIndex(i, j, k)));
                        // 4096 HU over the slack of 1e-6 voxel that counts as on the centre
                        assertEquals(volume.hu(i, j, k), sampled, 0.005);
                    }
                }
            }
        }
    }

    @Test
    void samplesBetweenEightVoxels() {
        HuVolume volume = TestGrids.volume(
                new VolumeGrid(
                        2, 2, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN, new PatientPoint(0, 0, 1))),
                (i, j, k) -> 100 * i + 10 * j * i + k);

        // By hand: f = 100x + 10xy + z at (0.25, 0.5, 0.75) = 25 + 1.25 + 0.75
        assertEquals(27, volume.sample(new PatientPoint(0.25, 0.5, 0.75)), ROUNDING);
    }

    @Test
    void endsAtTheOutermostVoxelCentres() {
        HuVolume volume = TestGrids.volume(TestGrids.anisotropic(), (i, j, k) -> 7);

        assertEquals(7, volume.sample(new PatientPoint(-10, 20, 300)), ROUNDING);
        assertEquals(7, volume.sample(new PatientPoint(-0.5, 31.25, 322)), ROUNDING);
        for (PatientPoint outside : List.of(
                new PatientPoint(-10.01, 20, 300),
                new PatientPoint(-10, 19.99, 300),
                new PatientPoint(-10, 20, 299.99),
                new PatientPoint(-0.49, 31.25, 322),
                new PatientPoint(-0.5, 31.26, 322),
                new PatientPoint(-0.5, 31.25, 322.01))) {
            assertTrue(Double.isNaN(volume.sample(outside)), outside.toString());
        }
    }

    @Test
    void doesNotBridgeAHole() {
        HuVolume volume = TestGrids.volume(TestGrids.irregularWithHole(), (i, j, k) -> 10 * k);

        // By hand: slice 4 at z 4.5, slice 5 at z 8.5, y shifted by a quarter of z
        assertEquals(40, volume.sample(new PatientPoint(4, 2, 4.5)), ROUNDING);
        assertTrue(Double.isNaN(volume.sample(new PatientPoint(4, 2.2, 6))));
        assertEquals(50, volume.sample(new PatientPoint(4, 3, 8.5)), ROUNDING);
    }

    @Test
    void aVoxelWithoutTissueCountsOnlyWithAWeight() {
        HuVolume volume = TestGrids.volume(
                new VolumeGrid(
                        3, 2, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN, new PatientPoint(0, 0, 1))),
                (i, j, k) -> i == 2 ? -2000 : 5);

        assertEquals(5, volume.sample(new PatientPoint(1, 0.5, 0.5)), ROUNDING);
        assertTrue(Double.isNaN(volume.sample(new PatientPoint(1.01, 0.5, 0.5))));
        assertTrue(Double.isNaN(volume.sample(new PatientPoint(2, 0, 0))));
    }

    @Test
    void samplesASingleSliceInItsPlaneOnly() {
        HuVolume volume = TestGrids.volume(
                new VolumeGrid(3, 3, 1, 1, TestGrids.X, TestGrids.Y, List.of(new PatientPoint(0, 0, 5))),
                (i, j, k) -> i + 10 * j);

        assertEquals(16.5, volume.sample(new PatientPoint(1.5, 1.5, 5)), ROUNDING);
        assertTrue(Double.isNaN(volume.sample(new PatientPoint(1.5, 1.5, 5.1))));
    }

    @Test
    void samplesASingleColumnInItsPlaneOnly() {
        HuVolume volume = TestGrids.volume(
                new VolumeGrid(
                        1,
                        3,
                        1,
                        1,
                        TestGrids.X,
                        TestGrids.Y,
                        TestGrids.origins(PatientPoint.ORIGIN, new PatientVector(0, 0, 1), 3)),
                (i, j, k) -> j + 10 * k);

        assertEquals(16.5, volume.sample(new PatientPoint(0, 1.5, 1.5)), ROUNDING);
        assertTrue(Double.isNaN(volume.sample(new PatientPoint(0.1, 1.5, 1.5))));
    }

    @Test
    void tellsItsBytes() {
        // By hand: 20 · 16 · 12 voxels of 2 bytes
        assertEquals(7680, TestGrids.noise(TestGrids.anisotropic(), 0, 1).voxelBytes());
    }
}
