package org.holdfast.measure;

/**
 * Which stations of a screw lie in its host bone: bone within 6 mm round at least 270°. Read on the reference exam and kept
 * for all exams; a station that faces disc, canal, a breach or another bone does not.
 */
final class HostStations {

    /** Why a station has no width. */
    static final String NOT_HOST =
            "no host bone within 6 mm round 270° on the reference exam: disc, canal, breach or another bone";

    private static final double FROM_MM = 0.8;
    private static final double TO_MM = 6;
    private static final int WINDOW_RINGS = 5;
    /** 270°. */
    private static final int SECTORS_NEEDED = 9;

    private HostStations() {}

    /**
     * One a slab.
     *
     * @param rings gathered with nothing left out
     * @param boneHu HU from which tissue counts as bone
     */
    static boolean[] of(ScrewInExam screw, ScrewRings rings, double boneHu) {
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

    /** HU that fall by more than this over 0.5 mm belong to the metal's flank. */
    private static final double FALL = 0.6;
}
