package org.holdfast.dicom;

/**
 * The inverse discrete cosine transform of 8 × 8 coefficients (ISO/IEC 10918-1, A.3.3), rows first, in double precision:
 * the only rounding is that of the samples. Keeps its buffer; one thread.
 */
final class InverseDct {

    static final int SIDE = 8;

    /** cos(kπ/16) / 2; the first with the factor 1/√2 of the constant term. */
    private static final double[] HALF_COSINE = new double[SIDE];

    static {
        for (int k = 0; k < SIDE; k++) {
            HALF_COSINE[k] = Math.cos(k * Math.PI / 16) / 2;
        }
        HALF_COSINE[0] = Math.sqrt(0.5) / 2;
    }

    private final double[] values = new double[SIDE * SIDE];

    /**
     * Turns coefficients into samples, row × 8 + column both.
     *
     * @param coefficients amplitudes, not scaled
     * @return samples around 0; the same array at each call
     */
    double[] samples(int[] coefficients) {
        for (int i = 0; i < values.length; i++) {
            values[i] = coefficients[i];
        }
        for (int row = 0; row < SIDE; row++) {
            transform(row * SIDE, 1);
        }
        for (int column = 0; column < SIDE; column++) {
            transform(column, SIDE);
        }
        return values;
    }

    /** Eight values from eight amplitudes; even ones are symmetric about the middle, odd ones antisymmetric. */
    private void transform(int at, int step) {
        double[] c = HALF_COSINE;
        double[] v = values;
        double constant = v[at] * c[0];
        double s1 = v[at + step];
        double s2 = v[at + 2 * step];
        double s3 = v[at + 3 * step];
        double fourth = v[at + 4 * step] * c[0];
        double s5 = v[at + 5 * step];
        double s6 = v[at + 6 * step];
        double s7 = v[at + 7 * step];
        double wide = s2 * c[2] + s6 * c[6];
        double narrow = s2 * c[6] - s6 * c[2];
        set(at, step, 0, constant + fourth + wide, s1 * c[1] + s3 * c[3] + s5 * c[5] + s7 * c[7]);
        set(at, step, 1, constant - fourth + narrow, s1 * c[3] - s3 * c[7] - s5 * c[1] - s7 * c[5]);
        set(at, step, 2, constant - fourth - narrow, s1 * c[5] - s3 * c[1] + s5 * c[7] + s7 * c[3]);
        set(at, step, 3, constant + fourth - wide, s1 * c[7] - s3 * c[5] + s5 * c[3] - s7 * c[1]);
    }

    private void set(int at, int step, int place, double even, double odd) {
        values[at + place * step] = even + odd;
        values[at + (SIDE - 1 - place) * step] = even - odd;
    }
}
