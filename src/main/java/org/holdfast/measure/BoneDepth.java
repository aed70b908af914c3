package org.holdfast.measure;

import java.util.Arrays;

/**
 * How deep the voxels of each cell round a screw may be read: bone is one HU only up to the next cortex, disc or canal. A
 * border shows in some sectors and not in the others at the same depth, with bone as elsewhere before it; the sclerotic
 * rim of a zone has fluid before it instead and is no border.
 */
final class BoneDepth {

    /** Borders are looked for from here outwards, mm beyond the radius; what lies before is then clear of the metal. */
    private static final double FROM_MM = 3.0;
    /** Rings in which a sector is compared with the others: 0.5 mm. */
    private static final int WINDOW_RINGS = 5;
    /** So much brighter or darker than the others is a border, HU. */
    private static final double BORDER_HU = 100;
    /** The blur of a border ends so far before it, rings. */
    private static final int BLUR_RINGS = 10;
    /** Bone before a border is looked for over this length, rings. */
    private static final int BEFORE_RINGS = 10;

    private BoneDepth() {}

    /**
     * The number of rings that may be read, [slab][sector].
     *
     * @param rings gathered with nothing left out
     * @param fluidHu HU of fluid
     */
    static int[][] of(ScrewInExam screw, ScrewRings rings, double fluidHu) {
        int slabs = screw.slabs();
        int[][] depth = new int[slabs][ScrewVoxels.SECTORS];
        for (int slab = 0; slab < slabs; slab++) {
            RingSums[] sectors = new RingSums[ScrewVoxels.SECTORS];
            for (int n = 0; n < sectors.length; n++) {
                boolean[] one = ScrewRings.sectors(n, 1);
                sectors[n] = rings.sums(
                        Math.max(0, slab - ScrewRings.STATION_REACH),
                        Math.min(slabs, slab + ScrewRings.STATION_REACH + 1),
                        one);
            }
            int first = screw.ringAt(FROM_MM);
            for (int n = 0; n < sectors.length; n++) {
                depth[slab][n] = border(sectors, n, first, screw.rings(), fluidHu);
            }
        }
        return depth;
    }

    private static int border(RingSums[] sectors, int sector, int first, int rings, double fluidHu) {
        double bone = median(sectors, first, rings);
        double boneFrom = 0.5 * (fluidHu + bone);
        for (int ring = first; ring + WINDOW_RINGS <= rings; ring++) {
            double own = sectors[sector].meanHu(ring, ring + WINDOW_RINGS);
            double others = median(sectors, ring, ring + WINDOW_RINGS);
            boolean differs = Math.abs(own - others) > BORDER_HU && Math.abs(own - bone) > BORDER_HU;
            if (differs) {
                int before = ring - BLUR_RINGS / 2;
                double inside = sectors[sector].meanHu(before - BEFORE_RINGS, before);
                if (inside >= boneFrom) {
                    return Math.max(first, ring - BLUR_RINGS);
                }
            }
        }
        return rings;
    }

    private static double median(RingSums[] sectors, int from, int to) {
        return Quantiles.median(Arrays.stream(sectors)
                .mapToDouble(s -> s.meanHu(from, to))
                .filter(v -> !Double.isNaN(v))
                .toArray());
    }
}
