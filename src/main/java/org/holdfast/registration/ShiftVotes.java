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

    /** A translation in mm and the votes in and round its cell. */
    record Shift(PatientVector shiftMm, int votes) {}

    private final SurfacePoints exam;
    private final double radiusMm;
    private int[] votes = new int[0];

    /** @param radiusMm largest distance of a reference point from the origin about which the reference is turned */
    ShiftVotes(SurfacePoints exam, double radiusMm) {
        this.exam = exam;
        this.radiusMm = radiusMm;
    }

    /** The translations with the most votes, best first. */
    List<Shift> best(SurfacePoints turned, int count) {
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

    /** The fullest cells, each refined to the middle of the votes in and round it. */
    private List<Shift> peaks(double[] low, int[] size, int count) {
        List<int[]> taken = new ArrayList<>();
        List<Shift> peaks = new ArrayList<>();
        while (peaks.size() < count) {
            int[] at = fullest(size, taken);
            if (at.length == 0) {
                break;
            }
            taken.add(at);
            peaks.add(middle(low, size, at));
        }
        return peaks;
    }

    private int[] fullest(int[] size, List<int[]> taken) {
        int most = 0;
        int[] at = {};
        for (int k = 1; k + 1 < size[2]; k++) {
            for (int j = 1; j + 1 < size[1]; j++) {
                int row = size[0] * (j + size[1] * k);
                for (int i = 1; i + 1 < size[0]; i++) {
                    if (votes[row + i] > most && isFree(taken, i, j, k)) {
                        most = votes[row + i];
                        at = new int[] {i, j, k};
                    }
                }
            }
        }
        return at;
    }

    private Shift middle(double[] low, int[] size, int[] at) {
        double[] sum = new double[3];
        int total = 0;
        for (int k = at[2] - 1; k <= at[2] + 1; k++) {
            for (int j = at[1] - 1; j <= at[1] + 1; j++) {
                for (int i = at[0] - 1; i <= at[0] + 1; i++) {
                    int here = votes[i + size[0] * (j + size[1] * k)];
                    total += here;
                    sum[0] += here * (i + 0.5);
                    sum[1] += here * (j + 0.5);
                    sum[2] += here * (k + 0.5);
                }
            }
        }
        PatientVector shift = new PatientVector(
                low[0] + CELL_MM * sum[0] / total,
                low[1] + CELL_MM * sum[1] / total,
                low[2] + CELL_MM * sum[2] / total);
        return new Shift(shift, total);
    }

    private static boolean isFree(List<int[]> taken, int i, int j, int k) {
        for (int[] t : taken) {
            if (Math.abs(t[0] - i) <= 2 && Math.abs(t[1] - j) <= 2 && Math.abs(t[2] - k) <= 2) {
                return false;
            }
        }
        return true;
    }
}
