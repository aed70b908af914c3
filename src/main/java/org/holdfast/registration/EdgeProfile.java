package org.holdfast.registration;

import java.util.Arrays;
import org.holdfast.volume.HuVolume;

/**
 * HU along a line through a metal surface, from inside to outside, and where the metal ends on it. One thread's scratch:
 * each reading overwrites the last.
 */
final class EdgeProfile {

    static final double STEP_MM = 0.1;
    /** Metal's own HU is read from so deep under the edge … */
    private static final double PLATEAU_FROM_MM = -2.2;
    /** … to so deep, mm: beyond the edge's blur, short of a rod's middle. */
    private static final double PLATEAU_TO_MM = -1.0;

    private static final double OUTSIDE_FROM_MM = 1.0;
    private static final double OUTSIDE_TO_MM = 2.2;

    private final HuVolume volume;
    private final double reachMm;
    private final double[] hu;
    private final double[] sorted;

    /** @param reachMm edges are looked for so far to both sides */
    EdgeProfile(HuVolume volume, double reachMm) {
        this.volume = volume;
        this.reachMm = reachMm + OUTSIDE_TO_MM;
        this.hu = new double[2 * (int) Math.round(this.reachMm / STEP_MM) + 1];
        this.sorted = new double[(int) Math.round((OUTSIDE_TO_MM - OUTSIDE_FROM_MM) / STEP_MM) + 1];
    }

    /** Reads the line through (x, y, z) along the unit normal (nx, ny, nz). */
    EdgeProfile read(double x, double y, double z, double nx, double ny, double nz) {
        for (int s = 0; s < hu.length; s++) {
            double t = s * STEP_MM - reachMm;
            hu[s] = volume.sample(x + t * nx, y + t * ny, z + t * nz);
        }
        return this;
    }

    /** Median HU under an edge at t; NaN where a value is missing. */
    double plateauHu(double t) {
        return medianHu(t + PLATEAU_FROM_MM, t + PLATEAU_TO_MM);
    }

    /** Median HU outside an edge at t; NaN where a value is missing. */
    double outsideHu(double t) {
        return medianHu(t + OUTSIDE_FROM_MM, t + OUTSIDE_TO_MM);
    }

    private double medianHu(double from, double to) {
        if (Double.isNaN(from)) {
            return Double.NaN;
        }
        int first = (int) Math.round((from + reachMm) / STEP_MM);
        int last = (int) Math.round((to + reachMm) / STEP_MM);
        if (first < 0 || last >= hu.length) {
            return Double.NaN;
        }
        int count = Math.min(sorted.length, last - first + 1);
        System.arraycopy(hu, first, sorted, 0, count);
        Arrays.sort(sorted, 0, count);
        // NaN sorts last: one missing value makes the answer missing.
        return Double.isNaN(sorted[count - 1]) ? Double.NaN : sorted[count / 2];
    }

    /** The downward crossing of a level nearest to t = 0 and within a distance of it; NaN if there is none. */
    double crossing(double levelHu, double withinMm) {
        double best = Double.NaN;
        for (int s = 0; s + 1 < hu.length; s++) {
            if (hu[s] >= levelHu && hu[s + 1] < levelHu) {
                double t = (s + (hu[s] - levelHu) / (hu[s] - hu[s + 1])) * STEP_MM - reachMm;
                if (Math.abs(t) <= withinMm && !(Math.abs(t) >= Math.abs(best))) {
                    best = t;
                }
            }
        }
        return best;
    }
}
