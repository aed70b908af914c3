package org.holdfast.desktop.view;

/**
 * Colours as they are seen with full loss of one kind of cone. Matrices in linear sRGB for severity 1.0. Source: Machado,
 * Oliveira, Fernandes: A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE TVCG 15(6), 2009.
 */
enum ColourVision {
    NORMAL(new double[][] {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}),
    PROTAN(new double[][] {
        {0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}
    }),
    DEUTAN(new double[][] {
        {0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}
    }),
    TRITAN(new double[][] {
        {1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}
    });

    private final double[][] matrix;

    ColourVision(double[][] matrix) {
        this.matrix = matrix;
    }

    /** Distance of two colours, 0xRRGGBB, in CIE 1976 L*a*b* (D65) as seen so; about 2 is just seen side by side. */
    double distance(int one, int other) {
        double[] a = lab(seen(one));
        double[] b = lab(seen(other));
        return Math.sqrt(square(a[0] - b[0]) + square(a[1] - b[1]) + square(a[2] - b[2]));
    }

    /** The linear red, green and blue that look the same to normal sight, each kept within 0 to 1. */
    private double[] seen(int colour) {
        double[] linear = Contrast.linear(colour);
        double[] seen = new double[3];
        for (int row = 0; row < 3; row++) {
            double sum = 0;
            for (int column = 0; column < 3; column++) {
                sum += matrix[row][column] * linear[column];
            }
            seen[row] = Math.max(0, Math.min(1, sum));
        }
        return seen;
    }

    private static double[] lab(double[] linear) {
        double x = 0.4124 * linear[0] + 0.3576 * linear[1] + 0.1805 * linear[2];
        double y = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
        double z = 0.0193 * linear[0] + 0.1192 * linear[1] + 0.9505 * linear[2];
        double fx = root(x / 0.95047);
        double fy = root(y);
        double fz = root(z / 1.08883);
        return new double[] {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
    }

    private static double root(double share) {
        return share > 0.008856 ? Math.cbrt(share) : 7.787 * share + 16.0 / 116;
    }

    private static double square(double value) {
        return value * value;
    }
}
