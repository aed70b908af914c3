package org.holdfast.figure;

import java.util.stream.IntStream;

/**
 * Where the exams of a course stand along a chart, and where the words under their points go, so that no two meet. Not
 * changed once built.
 */
final class ExamPlaces {

    /** Widest words under a lone point, "not stated". */
    private static final double LONE_WIDTH = 68;
    /** Widest words under a crowded point, whose value stands with its smallest visible gap. */
    private static final double CROWDED_WIDTH = 124;

    private final double[] x;
    private final boolean[] crowded;
    private final int[] rows;

    /** @param x places of the exams, logical pixels, rising */
    ExamPlaces(double[] x) {
        this.x = x.clone();
        this.crowded = new boolean[x.length];
        double[] widths = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            crowded[i] = i > 0 && x[i] - x[i - 1] < LONE_WIDTH || i < x.length - 1 && x[i + 1] - x[i] < LONE_WIDTH;
            widths[i] = crowded[i] ? CROWDED_WIDTH : LONE_WIDTH;
        }
        this.rows = Lettering.rows(x, widths);
    }

    int count() {
        return x.length;
    }

    /** Place of an exam, logical pixels. */
    double x(int exam) {
        return x[exam];
    }

    /** Whether a neighbour is so near that there is no room for a value above the point. */
    boolean isCrowded(int exam) {
        return crowded[exam];
    }

    /** Row of the words under an exam's point, from 0. */
    int row(int exam) {
        return rows[exam];
    }

    /** How many rows of words there are, at least 1. */
    int rowCount() {
        return 1 + IntStream.of(rows).max().orElse(0);
    }
}
