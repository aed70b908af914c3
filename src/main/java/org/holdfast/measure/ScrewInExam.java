package org.holdfast.measure;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.ScrewShape;

/**
 * A screw as one exam shows it, before any zone is fitted: its voxels about the refined axis, the metal's HU, the noise
 * and where the scale ends.
 *
 * @param axis refined axis
 * @param voxels voxels round it
 * @param radiusMm laid-out radius
 * @param metalHu mean HU of the metal, as read
 * @param noiseSdHu standard deviation of a voxel in the bone round it
 * @param ceilingHu HU from which a voxel is clipped; infinite for none
 * @param isClipped whether the metal lies at the ceiling
 */
record ScrewInExam(
        ScrewAxis axis,
        ScrewVoxels voxels,
        double radiusMm,
        double metalHu,
        double noiseSdHu,
        double ceilingHu,
        boolean isClipped) {

    /** Rings are gathered from so far inside the laid-out radius, mm. */
    static final double INSIDE_MM = 1;
    /** Voxels are read so far beyond the laid-out radius, mm: as far as host bone is looked for. */
    static final double OUTSIDE_MM = 6;
    /** The cap of a tip spoils the rings so far, mm; nearer to the tip nothing is read. */
    private static final double TIP_MM = 1.5;

    private static final double CEILING_SLACK_HU = 10;
    /** Metal counts in the centroid up to this HU: more would let the metal's own unevenness move it. */
    private static final double CENTROID_HIGH_HU = 3000;

    private static final double CENTROID_MIN_VOXELS = 10;
    private static final int CENTROID_ROUNDS = 2;
    /** From here outwards the metal's flank is gone and the scatter of a ring is noise, mm beyond the radius. */
    private static final double NOISE_FROM_MM = 2.5;

    /** Metal so far outside the laid-out radius is not the screw's own, mm. */
    private static final double UNKNOWN_METAL_MM = 2;

    private static final int MIN_NOISE_VOXELS = 6;
    private static final double LOWEST_NOISE_HU = 3;

    /** Reads a screw; empty, where no metal is seen in it. */
    static Optional<ScrewInExam> read(
            ScrewShape screw, ScrewAxis laidOut, ExamScan exam, List<Component> others, MeasurementSettings settings) {
        double radius = 0.5 * screw.diameterMm();
        double to = Math.max(screw.inBoneFromMm() + 1, Math.min(screw.inBoneToMm(), screw.lengthMm() - TIP_MM));
        double ceiling = exam.ceilingHuOrNaN();
        double clippedFrom = Double.isNaN(ceiling) ? Double.POSITIVE_INFINITY : ceiling - CEILING_SLACK_HU;
        double high = Math.min(CENTROID_HIGH_HU, clippedFrom);
        ScrewAxis axis = laidOut;
        ScrewVoxels voxels = null;
        for (int round = 0; round <= CENTROID_ROUNDS; round++) {
            voxels = ScrewVoxels.read(
                    axis, screw.inBoneFromMm(), to, radius + OUTSIDE_MM, exam, others, settings.otherMetalMarginMm());
            if (round < CENTROID_ROUNDS) {
                axis = voxels.centred(axis, radius + 1, settings.implantMinHu(), high, CENTROID_MIN_VOXELS);
            }
        }
        double metal = core(voxels, radius - INSIDE_MM);
        if (!(metal >= settings.implantMinHu())) {
            return Optional.empty();
        }
        return Optional.of(
                new ScrewInExam(axis, voxels, radius, metal, noise(voxels, radius), clippedFrom, metal >= clippedFrom));
    }

    int slabs() {
        return voxels.slabs().size();
    }

    double atMm(int slab) {
        return voxels.slabs().get(slab).atMm();
    }

    double fromRhoMm() {
        return Math.max(0.2, radiusMm - INSIDE_MM);
    }

    int rings() {
        return (int) Math.ceil((radiusMm + OUTSIDE_MM - fromRhoMm()) / RingSums.WIDTH_MM - 1e-9);
    }

    /** Ring of a distance beyond the laid-out radius. */
    int ringAt(double beyondMm) {
        return (int) Math.floor((radiusMm + beyondMm - fromRhoMm()) / RingSums.WIDTH_MM + 1e-9);
    }

    /** Sectors of a slab that other metal comes near to, laid out or not. */
    boolean[] otherMetal(int slab, double metalFromHu) {
        ScrewVoxels.Slab voxel = voxels.slabs().get(slab);
        boolean[] near = voxel.otherMetal().clone();
        for (int n = 0; n < voxel.hu().length; n++) {
            near[ScrewVoxels.sector(voxel.angleRad()[n])] |=
                    voxel.hu()[n] >= metalFromHu && voxel.rhoMm()[n] > radiusMm + UNKNOWN_METAL_MM;
        }
        return near;
    }

    /** Median over the slabs of the mean HU within a distance of the axis; NaN if there is no voxel. */
    private static double core(ScrewVoxels voxels, double withinMm) {
        return Quantiles.median(voxels.slabs().stream()
                .mapToDouble(slab -> IntStream.range(0, slab.hu().length)
                        .filter(n -> slab.rhoMm()[n] < Math.max(0.5, withinMm))
                        .mapToDouble(n -> slab.hu()[n])
                        .average()
                        .orElse(Double.NaN))
                .filter(v -> !Double.isNaN(v))
                .toArray());
    }

    /**
     * Noise from the scatter of voxels in cells of one slab, one sector and half a millimetre of depth, clear of the
     * metal: the median over the cells, so that cells with a border of bone in them do not count.
     */
    private static double noise(ScrewVoxels voxels, double radius) {
        int depths = (int) ((OUTSIDE_MM - NOISE_FROM_MM) / 0.5);
        double[] cells = voxels.slabs().stream()
                .flatMapToDouble(slab -> {
                    int size = ScrewVoxels.SECTORS * depths;
                    double[] count = new double[size];
                    double[] sum = new double[size];
                    double[] squares = new double[size];
                    for (int n = 0; n < slab.hu().length; n++) {
                        double beyond = slab.rhoMm()[n] - radius - NOISE_FROM_MM;
                        int depth = (int) Math.floor(beyond / 0.5);
                        if (depth >= 0 && depth < depths) {
                            int cell = ScrewVoxels.sector(slab.angleRad()[n]) * depths + depth;
                            count[cell]++;
                            sum[cell] += slab.hu()[n];
                            squares[cell] += (double) slab.hu()[n] * slab.hu()[n];
                        }
                    }
                    return IntStream.range(0, size)
                            .filter(n -> count[n] >= MIN_NOISE_VOXELS)
                            .mapToDouble(n -> Math.max(0, squares[n] - sum[n] * sum[n] / count[n]) / (count[n] - 1));
                })
                .toArray();
        return cells.length == 0 ? LOWEST_NOISE_HU : Math.max(LOWEST_NOISE_HU, Math.sqrt(Quantiles.median(cells)));
    }
}
