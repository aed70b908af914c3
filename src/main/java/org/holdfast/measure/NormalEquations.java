package org.holdfast.measure;

/**
 * Weighted linear least squares with Gaussian priors, gathered row by row: minimises Σ weight (y − row · b)² +
 * Σ priorWeight (b − prior)². For a handful of unknowns; reused from fit to fit without allocation. Not thread-safe.
 */
final class NormalEquations {

    /** A diagonal element that keeps less than this of itself marks unknowns that cannot be told apart. */
    private static final double SINGULAR = 1e-13;

    private final int unknowns;
    private final double[][] matrix;
    private final double[][] root;
    private final double[] right;

    NormalEquations(int unknowns) {
        this.unknowns = unknowns;
        this.matrix = new double[unknowns][unknowns];
        this.root = new double[unknowns][unknowns];
        this.right = new double[unknowns];
    }

    /** Forgets all rows and priors. */
    void clear() {
        for (int i = 0; i < unknowns; i++) {
            java.util.Arrays.fill(matrix[i], 0);
            right[i] = 0;
        }
    }

    /** Adds an observation. */
    void add(double[] row, double y, double weight) {
        for (int i = 0; i < unknowns; i++) {
            double w = weight * row[i];
            right[i] += w * y;
            for (int j = 0; j <= i; j++) {
                matrix[i][j] += w * row[j];
            }
        }
    }

    /** Adds what is known of an unknown beforehand. */
    void addPrior(int unknown, double value, double weight) {
        matrix[unknown][unknown] += weight;
        right[unknown] += weight * value;
    }

    /**
     * Solves for the first so many unknowns, the others held at 0.
     *
     * @param out receives the solution
     * @return whether they can be told apart
     */
    boolean solve(int count, double[] out) {
        if (!factor(count)) {
            return false;
        }
        System.arraycopy(right, 0, out, 0, count);
        substitute(count, out);
        java.util.Arrays.fill(out, count, unknowns, 0);
        return true;
    }

    /** Variance of an unknown for weights that are inverse variances; NaN if the unknowns cannot be told apart. */
    double variance(int count, int unknown) {
        if (!factor(count)) {
            return Double.NaN;
        }
        double[] unit = new double[unknowns];
        unit[unknown] = 1;
        substitute(count, unit);
        return unit[unknown];
    }

    private boolean factor(int count) {
        for (int i = 0; i < count; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = matrix[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= root[i][k] * root[j][k];
                }
                if (i == j) {
                    if (!(sum > SINGULAR * matrix[i][i])) {
                        return false;
                    }
                    root[i][i] = Math.sqrt(sum);
                } else {
                    root[i][j] = sum / root[j][j];
                }
            }
        }
        return true;
    }

    private void substitute(int count, double[] x) {
        for (int i = 0; i < count; i++) {
            for (int k = 0; k < i; k++) {
                x[i] -= root[i][k] * x[k];
            }
            x[i] /= root[i][i];
        }
        for (int i = count - 1; i >= 0; i--) {
            for (int k = i + 1; k < count; k++) {
                x[i] -= root[k][i] * x[k];
            }
            x[i] /= root[i][i];
        }
    }
}
