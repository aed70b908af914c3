package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

class InverseDctTest {

    private static final long SEED = 20261125;

    /** Sums of 64 products of numbers up to 2^15 in double precision. */
    private static final double ROUNDING = 1e-9;

    @Test
    void equalsTheSumThatDefinesIt() {
        Random random = new Random(SEED);
        InverseDct transform = new InverseDct();
        for (int run = 0; run < 50; run++) {
            int[] coefficients = new int[64];
            for (int i = 0; i < 64; i++) {
                coefficients[i] = random.nextInt(4) == 0 ? random.nextInt(1 << 16) - (1 << 15) : 0;
            }
            double[] samples = transform.samples(coefficients);
            for (int y = 0; y < 8; y++) {
                for (int x = 0; x < 8; x++) {
                    // Source: ISO/IEC 10918-1, A.3.3
                    assertEquals(definition(coefficients, y, x), samples[y * 8 + x], ROUNDING);
                }
            }
        }
    }

    private static double definition(int[] coefficients, int y, int x) {
        double sum = 0;
        for (int v = 0; v < 8; v++) {
            for (int u = 0; u < 8; u++) {
                double scale = (u == 0 ? Math.sqrt(0.5) : 1) * (v == 0 ? Math.sqrt(0.5) : 1) / 4;
                sum += scale
                        * coefficients[v * 8 + u]
                        * Math.cos((2 * x + 1) * u * Math.PI / 16)
                        * Math.cos((2 * y + 1) * v * Math.PI / 16);
            }
        }
        return sum;
    }
}
