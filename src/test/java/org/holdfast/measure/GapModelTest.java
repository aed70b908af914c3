package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class GapModelTest {

    @Test
    void middleOfANarrowGapStillReadsLikeMetal() {
        // By hand: Φ(0.25 / 0.4) = 0.73401, so 0.46803 of the blur lies in the gap; 7000 − 6970 · 0.46803 = 3737.9
        assertEquals(3737.9, GapModel.hu(0, 0.5, 0.4, 7000, 30), 0.5);
    }

    @Test
    void isMetalFarFromTheGapAndGapInAWideOne() {
        // Phantom: 7000 HU
        assertEquals(7000, GapModel.hu(4, 0.5, 0.4, 7000, 30), 1e-6);
        // Phantom: 30 HU
        assertEquals(30, GapModel.hu(0, 8, 0.4, 7000, 30), 1e-6);
    }

    @Test
    void findsTheGapOfWhatAClippedScanLeaves() {
        for (double gap : new double[] {0.9, 1.3, 3, 6}) {
            double left = GapModel.clippedIntegralMm(gap, 0.45, 7140, 30, 3071);
            // Phantom: the gap that was put in; bisection to 0.001 mm
            assertEquals(gap, GapModel.gapOfClippedIntegralMm(left, 0.45, 7140, 30, 3071), 2e-3);
        }
    }

    @Test
    void aWideGapLosesTheFlanksOfItsMetalOnAClippedScan() {
        double left = GapModel.clippedIntegralMm(5, 0.45, 7140, 30, 7140);
        // Phantom: nothing is clipped, so the integral is the gap; the model reaches 4 σ to both sides
        assertEquals(5, left, 1e-3);
    }

    @Test
    void anEndIsFoundWhereItIsAtHalfLevelAndBeyondAtALowerOne() {
        // Phantom: half of 7000 and 30
        assertEquals(0, GapModel.shiftOfEndMm(0.4, 7000, 30, 3515), 1e-12);
        // By hand: Φ(−1) = 0.158655; 30 + 6970 · 0.158655 = 1135.83, one σ beyond the end
        assertEquals(0.4, GapModel.shiftOfEndMm(0.4, 7000, 30, 1135.83), 1e-5);
    }
}
