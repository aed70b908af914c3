package org.holdfast.measure;

import java.util.Arrays;

/**
 * Levenberg–Marquardt for a few parameters that each must stay within bounds. A parameter at a bound that the descent
 * would cross is held there for the step; the others move (projected steps). One object serves one thread and allocates
 * nothing while it solves.
 *
 * <p>Method: Marquardt, SIAM J Appl Math 1963;11:431, with the diagonal of JᵀJ as damping.
 */
final class BoundedLeastSquares {

    /** What is minimised. */
    interface Problem {
        /**
         * Half the (robust) sum of squares at x, with its Gauss–Newton matrix and gradient.
         *
         * @param x parameters
         * @param information JᵀWJ, lower triangle filled, {@code [row][column]}; null if only the cost is wanted
         * @param gradient JᵀWr; null if only the cost is wanted
         */
        double costAt(double[] x, double[][] information, double[] gradient);
    }

    private static final double FIRST_DAMPING = 1e-3;
    private static final double LARGEST_DAMPING = 1e9;
    private static final double SMALLEST_DAMPING = 1e-9;
    private static final double TINY = 1e-300;

    private final int size;
    private final double[][] information;
    private final double[] gradient;
    private final double[][] factor;
    private final double[] step;
    private final double[] trial;
    private final boolean[] held;

    BoundedLeastSquares(int size) {
        this.size = size;
        this.information = new double[size][size];
        this.gradient = new double[size];
        this.factor = new double[size][size];
        this.step = new double[size];
        this.trial = new double[size];
        this.held = new boolean[size];
    }

    /**
     * Minimises from a start.
     *
     * @param x start, within the bounds; overwritten with the minimum
     * @param lower lower bounds
     * @param upper upper bounds; equal to the lower one for a parameter that is not free
     * @param rounds at most so many accepted steps
     * @param relative stops when the cost falls by less than this share
     * @return the cost at the minimum
     */
    double minimise(Problem problem, double[] x, double[] lower, double[] upper, int rounds, double relative) {
        double cost = problem.costAt(x, information, gradient);
        double damping = FIRST_DAMPING;
        int done = 0;
        while (done < rounds && damping < LARGEST_DAMPING) {
            hold(x, lower, upper);
            if (!solve(damping)) {
                damping *= 10;
                continue;
            }
            for (int n = 0; n < size; n++) {
                trial[n] = Math.min(upper[n], Math.max(lower[n], x[n] - step[n]));
            }
            double next = problem.costAt(trial, null, null);
            if (!(next < cost)) {
                if (cost - next > -relative * cost) {
                    return cost;
                }
                damping *= 8;
                continue;
            }
            boolean settled = cost - next <= relative * cost;
            System.arraycopy(trial, 0, x, 0, size);
            if (settled) {
                return next;
            }
            cost = problem.costAt(x, information, gradient);
            damping = Math.max(SMALLEST_DAMPING, damping / 8);
            done++;
        }
        return cost;
    }

    private void hold(double[] x, double[] lower, double[] upper) {
        for (int n = 0; n < size; n++) {
            held[n] =
                    upper[n] <= lower[n] || x[n] <= lower[n] && gradient[n] > 0 || x[n] >= upper[n] && gradient[n] < 0;
        }
    }

    /** Solves (A + damping · diag A) step = gradient for the parameters that are not held. */
    private boolean solve(double damping) {
        for (int row = 0; row < size; row++) {
            for (int column = 0; column <= row; column++) {
                factor[row][column] = held[row] || held[column] ? 0 : information[row][column];
            }
            double own = information[row][row];
            factor[row][row] = held[row] ? 1 : own + damping * own + TINY;
            step[row] = held[row] ? 0 : gradient[row];
        }
        return Cholesky.factor(factor, size) && Cholesky.solve(factor, step, size);
    }

    /** Factors and solves small symmetric positive definite systems in place, lower triangle. */
    static final class Cholesky {

        private Cholesky() {}

        /** a = L·Lᵀ, L written over the lower triangle; false where a is not positive definite. */
        static boolean factor(double[][] a, int size) {
            for (int row = 0; row < size; row++) {
                for (int column = 0; column <= row; column++) {
                    double sum = a[row][column];
                    for (int k = 0; k < column; k++) {
                        sum -= a[row][k] * a[column][k];
                    }
                    if (row == column) {
                        if (!(sum > 0)) {
                            return false;
                        }
                        a[row][row] = Math.sqrt(sum);
                    } else {
                        a[row][column] = sum / a[column][column];
                    }
                }
            }
            return true;
        }

        /** Solves L·Lᵀ x = b, x written over b; true if it is finite. */
        static boolean solve(double[][] lower, double[] b, int size) {
            for (int row = 0; row < size; row++) {
                double sum = b[row];
                for (int k = 0; k < row; k++) {
                    sum -= lower[row][k] * b[k];
                }
                b[row] = sum / lower[row][row];
            }
            boolean finite = true;
            for (int row = size - 1; row >= 0; row--) {
                double sum = b[row];
                for (int k = row + 1; k < size; k++) {
                    sum -= lower[k][row] * b[k];
                }
                b[row] = sum / lower[row][row];
                finite &= Double.isFinite(b[row]);
            }
            return finite;
        }

        /**
         * An element of the diagonal of the inverse of a symmetric matrix, over the parameters that are taken in; NaN where
         * that part is not positive definite.
         *
         * @param a lower triangle; not changed
         * @param taken which parameters
         * @param wanted whose element, one of those taken in
         */
        static double inverseDiagonal(double[][] a, boolean[] taken, int wanted) {
            int size = a.length;
            double[][] factor = new double[size][size];
            for (int row = 0; row < size; row++) {
                for (int column = 0; column <= row; column++) {
                    factor[row][column] = taken[row] && taken[column] ? a[row][column] : row == column ? 1 : 0;
                }
            }
            double[] column = new double[size];
            Arrays.fill(column, 0);
            column[wanted] = 1;
            return factor(factor, size) && solve(factor, column, size) ? column[wanted] : Double.NaN;
        }
    }
}
