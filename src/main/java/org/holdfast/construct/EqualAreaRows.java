package org.holdfast.construct;

import java.util.function.DoubleUnaryOperator;

/**
 * Splits a surface that is swept by rows of differing area (strips of an ellipse, zones of a sphere) so that every row
 * holds a whole number of cells of one common area. Rows keep nearly equal width.
 */
final class EqualAreaRows {

    /** Most cells of one patch; a wrong spacing must not fill the memory. */
    private static final long MOST_CELLS = 10_000_000;

    private final int[] cellsUpTo;

    /**
     * @param rows wished number of rows, at least 1
     * @param cells wished number of cells, at least 1
     * @param areaShare share of the area below a place s in [0, 1] across the rows, rising from 0 to 1
     */
    EqualAreaRows(int rows, int cells, DoubleUnaryOperator areaShare) {
        int most = Math.min(rows, cells);
        int[] bounds = new int[most + 1];
        int used = 0;
        for (int row = 1; row <= most; row++) {
            int upTo = row == most ? cells : (int) Math.rint(cells * areaShare.applyAsDouble((double) row / most));
            if (upTo > bounds[used]) {
                bounds[++used] = upTo;
            }
        }
        this.cellsUpTo = java.util.Arrays.copyOf(bounds, used + 1);
    }

    int rows() {
        return cellsUpTo.length - 1;
    }

    int cells() {
        return cellsUpTo[rows()];
    }

    int cellsInRow(int row) {
        return cellsUpTo[row + 1] - cellsUpTo[row];
    }

    /** Share of the whole area that lies below the line which halves a row's area. */
    double middleShare(int row) {
        return 0.5 * (cellsUpTo[row] + cellsUpTo[row + 1]) / cells();
    }

    /** Refuses a spacing that is none, or that would cut an area into more cells than can be kept. */
    static void requireFewEnough(double areaMm2, double spacingMm) {
        cells(areaMm2, spacingMm);
    }

    /** How many pieces of about the spacing a length is cut into; at least 1. */
    static int pieces(double lengthMm, double spacingMm) {
        return (int) count(lengthMm / spacingMm, spacingMm);
    }

    /** How many cells of about spacing² an area is cut into; at least 1. */
    static int cells(double areaMm2, double spacingMm) {
        return (int) count(areaMm2 / (spacingMm * spacingMm), spacingMm);
    }

    private static long count(double wished, double spacingMm) {
        if (!(spacingMm > 0)) {
            throw new IllegalArgumentException("spacingMm must be above 0, got " + spacingMm);
        }
        if (!(wished <= MOST_CELLS)) {
            throw new IllegalArgumentException(
                    "spacingMm " + spacingMm + " would give " + wished + " cells, at most " + MOST_CELLS + " are made");
        }
        return Math.max(1, Math.round(wished));
    }
}
