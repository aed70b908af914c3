package org.holdfast.measure;

import java.util.Arrays;

/**
 * Which stations of a screw lie in its host bone: bone within 6 mm round at least 270°. Read on the reference exam and kept
 * for all exams; a station that faces disc, canal, a breach or another bone does not.
 */
final class HostStations {

    /** Why a station has no width. */
    static final String NOT_HOST =
            "no host bone within 6 mm round 270° on the reference exam: disc, canal, breach or another bone";

    private static final double FROM_MM = 1.5;
    private static final double TO_MM = 6;
    private static final double HOST_FROM_MM = 3.5;
    /** Bone is at least so much brighter than fluid. */
    private static final double OVER_FLUID_HU = 25;

    private static final int WINDOW_RINGS = 5;
    /** HU that fall below this share over 0.5 mm belong to the metal's flank. */
    private static final double FALL = 0.6;
    /** 270°. */
    private static final int SECTORS_NEEDED = 9;

    private HostStations() {}

    /**
     * One a slab.
     *
     * @param rings gathered with nothing left out
     */
    static boolean[] of(ScrewInExam screw, ScrewRings rings, MeasurementSettings settings) {
        double boneHu = boneHu(screw, rings, settings);
        boolean[] host = new boolean[screw.slabs()];
        for (int slab = 0; slab < host.length; slab++) {
            int found = 0;
            for (int n = 0; n < ScrewVoxels.SECTORS; n++) {
                boolean[] one = ScrewRings.sectors(n, 1);
                RingSums sums = rings.sums(
                        Math.max(0, slab - ScrewRings.STATION_REACH),
                        Math.min(host.length, slab + ScrewRings.STATION_REACH + 1),
                        one);
                found += hasBone(screw, sums, boneHu) ? 1 : 0;
            }
            host[slab] = found >= SECTORS_NEEDED;
        }
        return host;
    }

    /**
     * HU from which tissue round the screw counts as bone: midway between fluid and the median at depth, or the fixed
     * threshold where the settings say so.
     */
    private static double boneHu(ScrewInExam screw, ScrewRings rings, MeasurementSettings settings) {
        if (settings.boneThreshold() == BoneThreshold.FIXED) {
            return settings.fixedBoneHu();
        }
        double[] depth = new double[screw.slabs() * ScrewVoxels.SECTORS];
        for (int n = 0; n < depth.length; n++) {
            int slab = n / ScrewVoxels.SECTORS;
            depth[n] = rings.sums(slab, slab + 1, ScrewRings.sectors(n % ScrewVoxels.SECTORS, 1))
                    .meanHu(screw.ringAt(HOST_FROM_MM), screw.ringAt(TO_MM));
        }
        double host = Quantiles.median(
                Arrays.stream(depth).filter(v -> !Double.isNaN(v)).toArray());
        double midway = Double.isNaN(host) ? settings.fixedBoneHu() : 0.5 * (settings.fluidHu() + host);
        return Math.min(settings.maxBoneHu(), Math.max(midway, settings.fluidHu() + OVER_FLUID_HU));
    }

    private static boolean hasBone(ScrewInExam screw, RingSums sums, double boneHu) {
        int end = Math.min(screw.rings(), screw.ringAt(TO_MM));
        // Beside the metal its flank reads as bright as bone: bone is looked for where the flank has fallen below it.
        int ring = screw.ringAt(FROM_MM);
        while (ring + WINDOW_RINGS <= end
                && sums.meanHu(ring + WINDOW_RINGS, ring + 2 * WINDOW_RINGS)
                        < FALL * sums.meanHu(ring, ring + WINDOW_RINGS)) {
            ring++;
        }
        for (; ring + WINDOW_RINGS <= end; ring++) {
            if (sums.meanHu(ring, ring + WINDOW_RINGS) >= boneHu) {
                return true;
            }
        }
        return false;
    }
}
