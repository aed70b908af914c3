package org.holdfast.measure;

import org.holdfast.volume.VolumeGrid;

/**
 * A screw's rings by slab and sector with the table of discs of one point spread, and the fits on their sums. How
 * deep each cell may be read is given; cells that are left out of every sum are read to depth 0.
 */
final class ScrewRings {

    /** Half the length over which a station's mean is taken, in slabs: 3 mm. */
    static final int STATION_REACH = 1;

    private static final double CLIPPED_METAL_SD = 0.1;
    private static final double READ_METAL_SD = 0.3;
    private static final double TABLE_MARGIN_MM = 0.15;

    private final ScrewInExam screw;
    private final RingSums[][] cells;
    private final int[][] depth;
    private final ZoneFit.Known known;
    private final int radii;

    /**
     * Gathers the rings, on all cores.
     *
     * @param spread point spread to be taken
     * @param nominalHu HU of the metal where the scale does not show it
     * @param depth rings of each cell that may be read, [slab][sector]; 0 leaves it out; not copied
     */
    ScrewRings(
            ScrewInExam screw,
            VolumeGrid grid,
            PointSpreadEstimate spread,
            double nominalHu,
            int[][] depth,
            MeasurementSettings settings) {
        this.screw = screw;
        this.depth = depth;
        CrossSectionBlur blur = CrossSectionBlur.of(
                spread, grid, screw.axis().zero(), screw.axis().quarter());
        double from = Math.max(0.3, screw.radiusMm() - ZoneFit.EDGE_MM - TABLE_MARGIN_MM);
        BlurredDiscs discs = new BlurredDiscs(
                blur,
                screw.fromRhoMm(),
                screw.radiusMm() + ScrewInExam.OUTSIDE_MM,
                from,
                screw.radiusMm() + ZoneFit.EDGE_MM + ZoneFit.WIDEST_MM + 1.6 + 2 * TABLE_MARGIN_MM);
        this.radii = discs.radii();
        this.cells = screw.voxels().slabs().parallelStream()
                .map(slab -> ScrewVoxels.gather(slab, discs, screw.fromRhoMm(), screw.rings(), screw.ceilingHu()))
                .toArray(RingSums[][]::new);
        double metal = screw.isClipped() ? nominalHu : screw.metalHu();
        this.known = new ZoneFit.Known(
                screw.radiusMm(),
                from,
                screw.noiseSdHu(),
                metal,
                metal * (screw.isClipped() ? CLIPPED_METAL_SD : READ_METAL_SD),
                settings.fluidHu());
    }

    /** The mean of a station over 3 mm and all sectors that can be read; null where these are too few. */
    ZoneFit.Zone station(int slab, double minShare) {
        int from = Math.max(0, slab - STATION_REACH);
        int to = Math.min(cells.length, slab + STATION_REACH + 1);
        boolean[] sectors = new boolean[ScrewVoxels.SECTORS];
        int kept = 0;
        for (int n = 0; n < sectors.length; n++) {
            sectors[n] = true;
            for (int s = from; s < to; s++) {
                sectors[n] &= depth[s][n] > 0;
            }
            kept += sectors[n] ? 1 : 0;
        }
        return kept < minShare * sectors.length ? null : fit(from, to, sectors);
    }

    /** The zone of some sectors over slabs [from, to), cells of the mask left out; null where nothing can be said. */
    ZoneFit.Zone fit(int from, int to, boolean[] sectors) {
        return new ZoneFit(known).fit(sums(from, to, sectors), true);
    }

    /** The same without a standard error, faster. */
    ZoneFit.Zone fitWithoutError(int from, int to, boolean[] sectors) {
        return new ZoneFit(known).fit(sums(from, to, sectors), false);
    }

    /** Rings of some sectors over slabs [from, to), cells of the mask left out. */
    RingSums sums(int from, int to, boolean[] sectors) {
        RingSums sums = new RingSums(screw.rings(), radii);
        for (int slab = from; slab < to; slab++) {
            for (int n = 0; n < sectors.length; n++) {
                if (sectors[n]) {
                    sums.add(cells[slab][n], depth[slab][n]);
                }
            }
        }
        return sums;
    }

    /** So many sectors from one on. */
    static boolean[] sectors(int first, int count) {
        boolean[] chosen = new boolean[ScrewVoxels.SECTORS];
        for (int n = 0; n < count; n++) {
            chosen[(first + n) % ScrewVoxels.SECTORS] = true;
        }
        return chosen;
    }
}
