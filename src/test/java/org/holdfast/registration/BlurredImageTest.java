package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/** A linear field stays what it is under a symmetric blur and under splines, away from borders. */
class BlurredImageTest {

    /** Values are kept in single precision: 300 HU · 6e-8 · some ten operations. */
    private static final double SINGLE_PRECISION = 1e-3;

    private static final double[] LOW = {-8, -8, -8};
    private static final double[] HIGH = {8, 8, 8};

    private static HuVolume linear() {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[41][41 * 41];
        for (int k = 0; k < 41; k++) {
            origins.add(new PatientPoint(-10, -10, -10 + 0.5 * k));
            for (int v = 0; v < hu[k].length; v++) {
                hu[k][v] = (short) (300 + 10 * (v % 41 - 20) - 6 * (v / 41 - 20) + 4 * (k - 20));
            }
        }
        VolumeGrid grid = new VolumeGrid(41, 41, 0.5, 0.5, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        return HuVolume.ofHu(grid, hu);
    }

    @Test
    void keepsALinearFieldAndItsGradient() {
        BlurredImage image = BlurredImage.read(linear(), LOW, HIGH, 0.75, p -> false, Progress.NONE)
                .blurred(0.9, 2);
        double[] read = new double[4];
        assertTrue(image.read(0.31, -0.77, 1.13, read));
        // Phantom: 300 + 20 x − 12 y + 8 z, 10 HU a column of 0.5 mm.
        assertEquals(300 + 20 * 0.31 + 12 * 0.77 + 8 * 1.13, read[0], SINGLE_PRECISION);
        assertEquals(20, read[1], SINGLE_PRECISION);
        assertEquals(-12, read[2], SINGLE_PRECISION);
        assertEquals(8, read[3], SINGLE_PRECISION);
    }

    @Test
    void readsNothingNearWhatIsLeftOutAndNothingOfIt() {
        // Half of the box is left out, where the field is changed beyond recognition.
        BlurredImage image = BlurredImage.read(linear(), LOW, HIGH, 0.75, p -> p.x() > 2, Progress.NONE)
                .blurred(0.75, 1);
        double[] read = new double[4];
        assertFalse(image.read(2, 0, 0, read));
        assertFalse(image.read(3, 0, 0, read));
        assertFalse(image.read(7.9, 0, 0, read));
        assertTrue(image.read(-2, 0, 0, read));
        // Phantom: 300 + 20 x.
        assertEquals(260, read[0], SINGLE_PRECISION);
    }
}
