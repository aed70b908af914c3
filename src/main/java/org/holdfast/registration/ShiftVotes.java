package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdfast.geometry.PatientVector;

/**
 * Which translation brings one set of surface points onto another of the same orientation: every pair whose normals agree
 * votes for its difference, and the fullest cells win (a generalised Hough transform; Ballard, Pattern Recognit
 * 1981;13:111). Unlike the centroids' difference it does not mind metal that is cut off, missing or moved. One thread's
 * scratch.
 */
final class ShiftVotes {

    private static final double CELL_MM = 5;
    private static final double LEAST_COSINE = 0.85;

    private final SurfacePoints exam;
    private final double radiusMm;
    private int[] votes = new int[0];

    /** @param radiusMm largest distance of a reference point from the origin about which the reference is turned */
    ShiftVotes(SurfacePoints exam, double radiusMm) {
        this.exam = exam;
        this.radiusMm = radiusMm;
    }

    /** The translations with the most votes, best first. */
    List<PatientVector> best(SurfacePoints turned, int count) {
        double[] low = new double[3];
        int[] size = new int[3];
        for (int axis = 0; axis < 3; axis++) {
            double min = Double.POSITIVE_INFINITY;
            double max = Double.NEGATIVE_INFINITY;
            for (int n = axis; n < exam.at.length; n += 3) {
                min = Math.min(min, exam.at[n]);
                max = Math.max(max, exam.at[n]);
            }
            low[axis] = min - radiusMm - CELL_MM;
            size[axis] = (int) Math.ceil((max + radiusMm + CELL_MM - low[axis]) / CELL_MM) + 2;
        }
        int cells = Math.multiplyExact(size[0], Math.multiplyExact(size[1], size[2]));
        if (votes.length < cells) {
            votes = new int[cells];
        } else {
            Arrays.fill(votes, 0, cells, 0);
        }
        vote(turned, low, size);
        return peaks(low, size, count);
    }

    private void vote(SurfacePoints turned, double[] low, int[] size) {
        double[] p = turned.at;
        double[] a = turned.normals;
        double[] q = exam.at;
        double[] b = exam.normals;
        for (int m = 0; m < q.length; m += 3) {
            for (int n = 0; n < p.length; n += 3) {
                if (a[n] * b[m] + a[n + 1] * b[m + 1] + a[n + 2] * b[m + 2] > LEAST_COSINE) {
                    int i = (int) ((q[m] - p[n] - low[0]) / CELL_MM);
                    int j = (int) ((q[m + 1] - p[n + 1] - low[1]) / CELL_MM);
                    int k = (int) ((q[m + 2] - p[n + 2] - low[2]) / CELL_MM);
                    votes[i + size[0] * (j + size[1] * k)]++;
                }
            }
        }
    }

    /** Windows of 2 × 2 × 2 cells, so that a peak on a border between cells counts as one. */
    private List<PatientVector> peaks(double[] low, int[] size, int count) {
        List<int[]> taken = new ArrayList<>();
        List<PatientVector> peaks = new ArrayList<>();
        while (peaks.size() < count) {
            int most = 0;
            int[] at = null;
            for (int k = 0; k + 1 < size[2]; k++) {
                for (int j = 0; j + 1 < size[1]; j++) {
                    for (int i = 0; i + 1 < size[0]; i++) {
                        int sum = window(i, j, k, size);
                        if (sum > most && isFree(taken, i, j, k)) {
                            most = sum;
                            at = new int[] {i, j, k};
                        }
                    }
                }
            }
            if (at == null) {
                break;
            }
            taken.add(at);
            peaks.add(new PatientVector(
                    low[0] + (at[0] + 1) * CELL_MM, low[1] + (at[1] + 1) * CELL_MM, low[2] + (at[2] + 1) * CELL_MM));
        }
        return peaks;
    }

    private int window(int i, int j, int k, int[] size) {
        int v = i + size[0] * (j + size[1] * k);
        int w = v + size[0] * size[1];
        return votes[v]
                + votes[v + 1]
                + votes[v + size[0]]
                + votes[v + size[0] + 1]
                + votes[w]
                + votes[w + 1]
                + votes[w + size[0]]
                + votes[w + size[0] + 1];
    }

    private static boolean isFree(List<int[]> taken, int i, int j, int k) {
        for (int[] t : taken) {
            if (Math.abs(t[0] - i) <= 1 && Math.abs(t[1] - j) <= 1 && Math.abs(t[2] - k) <= 1) {
                return false;
            }
        }
        return true;
    }
}
