package org.holdfast.measure;

import java.util.Arrays;
import java.util.Locale;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/**
 * The narrowest break that a scan shows: the rule is run on the model of a straight cut across a thick part with this
 * scan's point spread, voxels, noise and scale, with the cut in the least favourable place between voxels.
 *
 * <p>Model: metal with a gap of width g, h(s) = H − (H − h_gap)·(Φ((g/2 − s)/σ) − Φ((−g/2 − s)/σ)), σ² the point
 * spread along the axis and the voxel's box; sampled voxel by voxel, clipped at the ceiling, read between voxels by
 * linear interpolation. Where interpolation is oblique to the axis the scan shows a little more than this.
 */
final class VisibleBreak {

    private static final double HALF_LENGTH_MM = 16;
    private static final double WIDEST_MM = 8;
    private static final double COARSE_MM = 0.05;
    private static final double RESOLUTION_MM = 0.005;
    private static final int PHASES = 4;
    /** The dip must still be seen if noise fills it by so many standard deviations of the core. */
    private static final double NOISE_SD = 2;

    private final double sigmaMm;
    private final double pitchMm;
    private final double metalHu;
    private final double noiseHu;
    private final PartTrack track;
    private final MeasurementSettings settings;

    /**
     * @param track the part in the exam, whose plateau, scale and step count
     * @param metalHu true HU of the metal: the plateau, or the nominal HU where it is clipped
     * @param noiseHu standard deviation of the core's HU
     */
    VisibleBreak(ExamScan exam, PartTrack track, double metalHu, double noiseHu, MeasurementSettings settings) {
        VolumeGrid grid = exam.volume().grid();
        PatientVector along = track.axis().station(track.size() / 2).along();
        double a = along.dot(grid.rowDirection()) * grid.columnSpacingMm();
        double b = along.dot(grid.columnDirection()) * grid.rowSpacingMm();
        double c = along.dot(grid.normal()) * grid.pitchMm().orElse(0);
        double box = a * a + b * b + c * c;
        double sampled = exam.pointSpread().sigmaAlongMm(along, grid);
        // The sampled profile's figure holds interpolation over all phases, box / 6; here it is done, not averaged.
        this.sigmaMm = Math.sqrt(sampled * sampled - box / 6);
        this.pitchMm = Math.sqrt(box);
        this.metalHu = metalHu;
        this.noiseHu = noiseHu;
        this.track = track;
        this.settings = settings;
    }

    /** The narrowest width along the axis of a straight cut that the rule finds; not stated over 8 mm. */
    Stated smallestMm() {
        double seen = COARSE_MM;
        while (!isSeen(seen)) {
            seen += COARSE_MM;
            if (seen > WIDEST_MM) {
                return Stated.not(
                        String.format(Locale.ROOT, "not even a gap of %.0f mm would show on this scan", WIDEST_MM));
            }
        }
        double missed = seen - COARSE_MM;
        while (seen - missed > RESOLUTION_MM) {
            double middle = 0.5 * (seen + missed);
            if (isSeen(middle)) {
                seen = middle;
            } else {
                missed = middle;
            }
        }
        return Stated.of(seen);
    }

    private boolean isSeen(double gapMm) {
        for (int phase = 0; phase < PHASES; phase++) {
            if (new DipRule(modelled(gapMm, phase * pitchMm / PHASES), settings.continuity())
                    .dips()
                    .isEmpty()) {
                return false;
            }
        }
        return true;
    }

    private DipRule.Profile modelled(double gapMm, double phaseMm) {
        double step = track.axis().stepMm();
        int half = (int) Math.round(HALF_LENGTH_MM / step);
        double[] core = new double[2 * half + 1];
        double[] area = new double[core.length];
        for (int n = 0; n < core.length; n++) {
            double at = ((n - half) * step - phaseMm) / pitchMm;
            double before = Math.floor(at);
            double share = at - before;
            double hu = (1 - share) * voxelHu(before * pitchMm + phaseMm, gapMm)
                    + share * voxelHu((before + 1) * pitchMm + phaseMm, gapMm);
            area[n] = hu >= track.levelHu() ? 1 : 0;
            core[n] = Math.min(hu + NOISE_SD * noiseHu, track.isClipped() ? track.plateauHu() : Double.MAX_VALUE);
        }
        boolean[] all = new boolean[core.length];
        Arrays.fill(all, true);
        return new DipRule.Profile(step, core, area, all, track.plateauHu(), track.isClipped(), 1);
    }

    private double voxelHu(double atMm, double gapMm) {
        double hu = GapModel.hu(atMm, gapMm, sigmaMm, metalHu, settings.fluidHu());
        return track.isClipped() ? Math.min(track.plateauHu(), hu) : hu;
    }
}
