package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.Test;

class VolumeStatisticsTest {

    /** 100 voxels in each of two slices: so many at one stored value, the rest at another. */
    private static VolumeStatistics of(StoredFormat format, Rescale rescale, int atTop, int top, int rest) {
        VolumeGrid grid = new VolumeGrid(
                10, 10, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN, new PatientPoint(0, 0, 1)));
        HuVolume.Builder builder = HuVolume.builder(grid, format, new Rescale[] {rescale, rescale});
        int left = atTop;
        for (int k = 0; k < 2; k++) {
            short[] words = new short[100];
            for (int n = 0; n < 100; n++) {
                words[n] = (short) (left-- > 0 && n < 60 ? top : rest);
            }
            left += 40;
            builder.slice(k, words, null);
        }
        return builder.build().statistics();
    }

    private static OptionalDouble ceiling(int bits, boolean signed, double slope, double intercept, int top) {
        return of(new StoredFormat(bits, signed), new Rescale(slope, intercept), 60, top, 1000)
                .ceilingHu();
    }

    @Test
    void countsAndMean() {
        VolumeGrid grid = new VolumeGrid(5, 1, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN));
        VolumeStatistics s =
                HuVolume.ofHu(grid, new short[][] {{-2000, -1024, 0, 30, 44}}).statistics();

        // By hand: four valid; (−1024 + 0 + 30 + 44) / 4 = −237.5
        assertEquals(4, s.validVoxels());
        assertEquals(5, s.totalVoxels());
        assertEquals(-1024, s.minHu());
        assertEquals(44, s.maxHu());
        assertEquals(-237.5, s.meanHu(), 1e-12);
        assertEquals(1, s.voxelsAtMaximum());
    }

    @Test
    void ceilingNeedsFiftyVoxels() {
        StoredFormat twelve = new StoredFormat(12, false);
        Rescale usual = new Rescale(1, -1024);

        assertEquals(OptionalDouble.empty(), of(twelve, usual, 49, 4095, 1000).ceilingHu());
        assertEquals(OptionalDouble.of(3071), of(twelve, usual, 50, 4095, 1000).ceilingHu());
        assertEquals(50, of(twelve, usual, 50, 4095, 1000).voxelsAtMaximum());
    }

    /** 60 voxels near the top of a 12-bit scale, spread over so many stored steps, the rest at 1000. */
    private static VolumeStatistics spread(int top, int steps, boolean lossy) {
        VolumeGrid grid = new VolumeGrid(10, 10, 1, 1, TestGrids.X, TestGrids.Y, List.of(PatientPoint.ORIGIN));
        HuVolume.Builder builder =
                HuVolume.builder(grid, new StoredFormat(12, false), new Rescale[] {new Rescale(1, -1024)});
        if (lossy) {
            builder.lossy();
        }
        short[] words = new short[100];
        for (int n = 0; n < 100; n++) {
            words[n] = (short) (n < 60 ? top - n % (steps + 1) : 1000);
        }
        return builder.slice(0, words, null).build().statistics();
    }

    @Test
    void lossySpreadsTheCeilingOverEightSteps() {
        // By hand: 4095 − 1024 = 3071 HU is where 12 bits end; 60 voxels lie within 8 steps of it, none 50 at one value
        assertEquals(OptionalDouble.of(3071), spread(4095, 8, true).ceilingHu());
        assertEquals(60, spread(4095, 8, true).voxelsAtMaximum());
        assertEquals(OptionalDouble.of(3071), spread(4092, 5, true).ceilingHu());
        assertEquals(OptionalDouble.empty(), spread(4095, 8, false).ceilingHu());
        // By hand: the maximum itself is 9 steps below the end of the scale
        assertEquals(OptionalDouble.empty(), spread(4086, 0, true).ceilingHu());
        // By hand: of 60 voxels over 16 steps, 4095 to 4087 hold 4·9 = 36, too few
        assertEquals(OptionalDouble.empty(), spread(4095, 15, true).ceilingHu());
    }

    @Test
    void ceilingCountsOverAllSlices() {
        VolumeStatistics s = of(new StoredFormat(12, false), new Rescale(1, -1024), 80, 4095, 1000);

        // By hand: 60 in the first slice, 20 in the second
        assertEquals(80, s.voxelsAtMaximum());
        assertEquals(OptionalDouble.of(3071), s.ceilingHu());
    }

    @Test
    void aPlateauAtAnyOtherValueIsNoCeiling() {
        assertEquals(OptionalDouble.empty(), ceiling(12, false, 1, -1024, 4000));
        assertEquals(OptionalDouble.empty(), ceiling(16, true, 1, 0, 3071));
        assertEquals(OptionalDouble.empty(), ceiling(16, false, 1, -1024, 2047));
    }

    @Test
    void ceilingAtFullBitsOfAWiderWord() {
        // By hand: 2^12 − 1, 2^13 − 1, 2^14 − 1, 2^15 − 1 stored, less 1024, in 16-bit words
        assertEquals(OptionalDouble.of(3071), ceiling(16, false, 1, -1024, 4095));
        assertEquals(OptionalDouble.of(7167), ceiling(16, false, 1, -1024, 8191));
        assertEquals(OptionalDouble.of(15359), ceiling(16, true, 1, -1024, 16383));
        assertEquals(OptionalDouble.of(31743), ceiling(16, true, 1, -1024, 32767));
    }

    @Test
    void ceilingAtTheFormatsLimit() {
        // By hand: the largest 12-bit signed value is 2047, of 10 bits unsigned 1023
        assertEquals(OptionalDouble.of(2047), ceiling(12, true, 1, 0, 2047));
        assertEquals(OptionalDouble.of(1023), ceiling(10, false, 1, 0, 1023));
    }

    @Test
    void ceilingOfAnExtendedScale() {
        // By hand: 10·4095 − 10240
        assertEquals(OptionalDouble.of(30710), ceiling(12, false, 10, -10240, 4095));
    }

    @Test
    void ceilingOfAllSixteenBitsIsFoundOneStepLower() {
        // By hand: 65535 − 1024 and 0.5·65535 − 1000, each less the step that the highest value gives up
        assertEquals(OptionalDouble.of(64510), ceiling(16, false, 1, -1024, 65535));
        assertEquals(OptionalDouble.of(31767), ceiling(16, false, 0.5, -1000, 65535));
    }

    @Test
    void aNegativeSlopeHasNoCeilingAtTheTopOfItsStorage() {
        // The largest HU is the smallest stored value there.
        assertEquals(OptionalDouble.empty(), ceiling(12, false, -1, 1000, 0));
    }

    @Test
    void nothingIsStatedWithoutAValidVoxel() {
        VolumeStatistics s = of(new StoredFormat(16, true), new Rescale(1, 0), 200, -2000, -2000);

        assertEquals(0, s.validVoxels());
        assertTrue(Double.isNaN(s.minHu()) && Double.isNaN(s.maxHu()) && Double.isNaN(s.meanHu()));
        assertEquals(OptionalDouble.empty(), s.ceilingHu());
    }
}
