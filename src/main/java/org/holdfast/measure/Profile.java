package org.holdfast.measure;

import java.util.Arrays;

/**
 * HU along the outward normal of a sample at equal steps; t = 0 on the laid-out patch, positive towards the bone. NaN
 * marks places outside the valid image. Immutable; the array is shared and must not be written.
 */
final class Profile {

    private final double fromMm;
    private final double stepMm;
    private final double[] hu;

    /**
     * @param fromMm t of the first value
     * @param stepMm step between values, > 0
     * @param hu values; not copied
     */
    Profile(double fromMm, double stepMm, double[] hu) {
        this.fromMm = fromMm;
        this.stepMm = stepMm;
        this.hu = hu;
    }

    double fromMm() {
        return fromMm;
    }

    double toMm() {
        return fromMm + stepMm * (hu.length - 1);
    }

    double stepMm() {
        return stepMm;
    }

    int size() {
        return hu.length;
    }

    double value(int index) {
        return hu[index];
    }

    double tMm(int index) {
        return fromMm + stepMm * index;
    }

    /** HU at t by linear interpolation; NaN outside the profile. */
    double at(double tMm) {
        double place = (tMm - fromMm) / stepMm;
        int below = (int) Math.floor(place + 1e-9);
        if (below < 0 || place > hu.length - 1 + 1e-9) {
            return Double.NaN;
        }
        if (below >= hu.length - 1) {
            return hu[hu.length - 1];
        }
        double fraction = Math.max(0, place - below);
        return fraction == 0 ? hu[below] : hu[below] + fraction * (hu[below + 1] - hu[below]);
    }

    /**
     * Mean of the HU at {@code from}, {@code from + step} … up to {@code to}; NaN if one of them is not valid or the
     * range leaves the profile.
     */
    double mean(double from, double to) {
        int steps = (int) Math.round((to - from) / stepMm);
        double sum = 0;
        for (int n = 0; n <= steps; n++) {
            sum += at(from + n * stepMm);
        }
        return sum / (steps + 1);
    }

    /** Smallest HU at {@code from}, {@code from + step} … up to {@code to}; NaN if one of them is not valid. */
    double min(double from, double to) {
        int steps = (int) Math.round((to - from) / stepMm);
        double smallest = Double.POSITIVE_INFINITY;
        for (int n = 0; n <= steps; n++) {
            smallest = Math.min(smallest, at(from + n * stepMm));
        }
        return smallest;
    }

    /** This profile as a scale with a ceiling shows it; unchanged for a ceiling of NaN. */
    Profile clippedAt(double ceilingHu) {
        if (Double.isNaN(ceilingHu)) {
            return this;
        }
        double[] clipped = new double[hu.length];
        for (int n = 0; n < hu.length; n++) {
            clipped[n] = Math.min(hu[n], ceilingHu);
        }
        return new Profile(fromMm, stepMm, clipped);
    }

    /** Median of the valid HU at the profile's own steps in [from, to]; NaN if there is none. */
    double median(double from, double to) {
        int first = Math.max(0, (int) Math.ceil((from - fromMm) / stepMm - 1e-9));
        int last = Math.min(hu.length - 1, (int) Math.floor((to - fromMm) / stepMm + 1e-9));
        double[] inside = new double[Math.max(0, last - first + 1)];
        int count = 0;
        for (int n = first; n <= last; n++) {
            if (!Double.isNaN(hu[n])) {
                inside[count++] = hu[n];
            }
        }
        return Quantiles.median(Arrays.copyOf(inside, count));
    }
}
