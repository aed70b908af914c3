package org.holdfast.measure;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import org.holdfast.construct.PatchSample;

/**
 * Which samples changed beyond error: over so many standard deviations; not on the blurred border of a strong change; and
 * not in a spot smaller than the disc over which differences are smoothed, as noise makes such spots.
 */
final class ChangedSpots {

    /** A border is one of a strong change where differences near by span so many standard deviations. */
    private static final double STRONG_SD = 4;

    private final List<PatchSample> samples;
    private final double[] differenceHu;
    private final double[] errorHu;
    private final double beyondSd;

    /**
     * @param differenceHu smoothed differences, one a sample; NaN where not comparable
     * @param errorHu their standard deviations; NaN where not comparable
     */
    ChangedSpots(List<PatchSample> samples, double[] differenceHu, double[] errorHu, double beyondSd) {
        this.samples = samples;
        this.differenceHu = differenceHu;
        this.errorHu = errorHu;
        this.beyondSd = beyondSd;
    }

    /**
     * The class of each sample.
     *
     * @param borderReach neighbours as far as a border is blurred
     * @param touching neighbours that touch
     * @param minSpotMm2 smaller spots are no change
     */
    ChangeReading.Kind[] classes(SurfaceNeighbours borderReach, SurfaceNeighbours touching, double minSpotMm2) {
        int[] sign = new int[differenceHu.length];
        for (int n = 0; n < sign.length; n++) {
            sign[n] = isBeyond(n) ? (int) Math.signum(differenceHu[n]) : 0;
        }
        int[] inside = sign.clone();
        for (int n = 0; n < sign.length; n++) {
            if (sign[n] != 0 && isOutsideBorder(n, sign, borderReach.of(n))) {
                inside[n] = 0;
            }
        }
        dropSmallSpots(inside, touching, minSpotMm2);
        ChangeReading.Kind[] kinds = new ChangeReading.Kind[sign.length];
        for (int n = 0; n < kinds.length; n++) {
            kinds[n] = Double.isNaN(differenceHu[n]) || Double.isNaN(errorHu[n])
                    ? ChangeReading.Kind.NOT_COMPARABLE
                    : inside[n] > 0
                            ? ChangeReading.Kind.MORE
                            : inside[n] < 0 ? ChangeReading.Kind.LESS : ChangeReading.Kind.NONE;
        }
        return kinds;
    }

    private boolean isBeyond(int n) {
        return Math.abs(differenceHu[n]) > beyondSd * errorHu[n];
    }

    /**
     * Whether a sample lies on the low side of a border: blur lets a change reach beyond its own border, where it falls to
     * half, as at any blurred edge. Only where the lower side has not changed that way itself.
     */
    private boolean isOutsideBorder(int n, int[] sign, int[] near) {
        double highest = Double.NEGATIVE_INFINITY;
        double lowest = Double.POSITIVE_INFINITY;
        int low = n;
        for (int m : near) {
            double d = sign[n] * differenceHu[m];
            if (!Double.isNaN(d) && !Double.isNaN(errorHu[m])) {
                highest = Math.max(highest, d);
                if (d < lowest) {
                    lowest = d;
                    low = m;
                }
            }
        }
        return sign[low] != sign[n]
                && highest - lowest > STRONG_SD * errorHu[n]
                && sign[n] * differenceHu[n] < 0.5 * (highest + lowest);
    }

    private void dropSmallSpots(int[] sign, SurfaceNeighbours touching, double minSpotMm2) {
        boolean[] seen = new boolean[sign.length];
        for (int start = 0; start < sign.length; start++) {
            if (seen[start] || sign[start] == 0) {
                continue;
            }
            int[] spot = new int[sign.length];
            int count = 0;
            double area = 0;
            Deque<Integer> open = new ArrayDeque<>(List.of(start));
            seen[start] = true;
            while (!open.isEmpty()) {
                int n = open.pop();
                spot[count++] = n;
                area += samples.get(n).areaMm2();
                for (int m : touching.of(n)) {
                    if (!seen[m] && sign[m] == sign[start]) {
                        seen[m] = true;
                        open.push(m);
                    }
                }
            }
            if (area < minSpotMm2) {
                Arrays.stream(spot, 0, count).forEach(n -> sign[n] = 0);
            }
        }
    }
}
