package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/** HU between voxels by cubic convolution. */
class CubicReadingTest {

    /** The reading is a sum of 64 products of doubles. */
    private static final double ROUNDING = 1e-9;

    /** 8 × 8 × 8 voxels of 1 mm from the origin; HU 2x² − 3y + z² + xy. */
    private static HuVolume parabola(double gapAfterMm) {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[8][64];
        for (int k = 0; k < 8; k++) {
            origins.add(new PatientPoint(0, 0, k < 5 ? k : k + gapAfterMm));
            for (int n = 0; n < 64; n++) {
                int x = n % 8;
                int y = n / 8;
                hu[k][n] = (short) (2 * x * x - 3 * y + k * k + x * y);
            }
        }
        return HuVolume.ofHu(new VolumeGrid(8, 8, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins), hu);
    }

    @Test
    void isExactForParabolas() {
        CubicReading reading = new CubicReading(parabola(0));
        // By hand: 2 · 2.25² − 3 · 3.5 + 4.75² + 2.25 · 3.5 = 10.125 − 10.5 + 22.5625 + 7.875.
        assertEquals(30.0625, reading.hu(new PatientPoint(2.25, 3.5, 4.75)), ROUNDING);
        // By hand: at a voxel its own value, 2 · 9 − 3 · 2 + 16 + 6.
        assertEquals(34, reading.hu(new PatientPoint(3, 2, 4)), ROUNDING);
    }

    @Test
    void isTrilinearAtTheBorder() {
        HuVolume volume = parabola(0);
        PatientPoint p = new PatientPoint(0.5, 3.5, 4.5);
        assertEquals(volume.sample(p), new CubicReading(volume).hu(p), 0);
        assertTrue(Double.isNaN(new CubicReading(volume).hu(new PatientPoint(-0.5, 3, 3))));
    }

    @Test
    void readsNothingInAHole() {
        HuVolume holed = parabola(4);
        assertTrue(Double.isNaN(new CubicReading(holed).hu(new PatientPoint(3, 3, 6))));
        PatientPoint beside = new PatientPoint(3.5, 3.5, 2.5);
        assertEquals(holed.sample(beside), new CubicReading(holed).hu(beside), 0);
    }
}
