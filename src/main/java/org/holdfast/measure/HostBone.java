package org.holdfast.measure;

import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * The host bone opposite a face on the reference exam, and the bone threshold that follows from it; fixed for all exams
 * of the subject.
 *
 * @param hostHu median HU of the host bone at the depth where it is read
 * @param noiseSdHu standard deviation of a voxel's noise there
 * @param boneHu HU from which tissue counts as bone
 * @param rule how the threshold came about, in words
 */
record HostBone(Stated hostHu, Stated noiseSdHu, double boneHu, String rule) {

    private static final String NO_HOST = "no valid image at the depth where host bone is read";
    private static final String NO_NOISE = "too few voxels at the depth where host bone is read";
    /** Tissue no brighter than fluid and this is not host bone. */
    private static final double NEAR_FLUID_HU = 5;
    /** Fewer pairs than this give no figure for the noise. */
    private static final int MIN_NOISE_PAIRS = 30;

    static HostBone read(FaceProfiles face, ImplantEdge[] edges, HuVolume volume, MeasurementSettings settings) {
        double[] depth = new double[edges.length];
        int count = 0;
        for (int n = 0; n < edges.length; n++) {
            double hu = depthHu(face.profiles()[n], edges[n].tMm(), face.cutsMm()[n], settings);
            if (!Double.isNaN(hu)) {
                depth[count++] = hu;
            }
        }
        double host = Quantiles.median(java.util.Arrays.copyOf(depth, count));
        double noise = noiseSd(face, edges, volume, settings);
        if (host <= settings.fluidHu() + NEAR_FLUID_HU) {
            String why = String.format(
                    Locale.ROOT, "no bone opposite the face: %.0f HU at the depth where host bone is read", host);
            return new HostBone(
                    Stated.not(why), Stated.ofOrNot(noise, NO_NOISE), settings.fixedBoneHu(), "fixed, since " + why);
        }
        Stated hostHu = Stated.ofOrNot(host, NO_HOST);
        Stated noiseHu = Stated.ofOrNot(noise, NO_NOISE);
        if (settings.boneThreshold() == BoneThreshold.FIXED || Double.isNaN(host)) {
            String rule = settings.boneThreshold() == BoneThreshold.FIXED
                    ? "fixed"
                    : "fixed, since host bone could not be read";
            return new HostBone(hostHu, noiseHu, settings.fixedBoneHu(), rule);
        }
        double midway = 0.5 * (settings.fluidHu() + host);
        double floor = settings.fluidHu() + settings.noiseMultiple() * (Double.isNaN(noise) ? 0 : noise);
        double bone = Math.min(settings.maxBoneHu(), Math.max(midway, floor));
        String reason = bone == midway
                ? "midway between fluid and host bone"
                : bone == floor
                        ? String.format(Locale.ROOT, "fluid + %s × noise SD", settings.noiseMultiple())
                        : "upper limit";
        return new HostBone(hostHu, noiseHu, bone, reason);
    }

    /** Median HU at the depth where host bone is read; NaN where the edge or the image is missing. */
    static double depthHu(Profile profile, double edgeMm, double cutMm, MeasurementSettings settings) {
        if (Double.isNaN(edgeMm) || cutMm < edgeMm + settings.hostToMm()) {
            return Double.NaN;
        }
        return profile.median(edgeMm + settings.hostFromMm(), edgeMm + settings.hostToMm());
    }

    /**
     * Standard deviation of the noise from differences of voxels that touch in a row: 1.4826 · median |d| / √2, each pair
     * once. The bone's own slow changes hardly enter; noise that is correlated between neighbours is underestimated.
     */
    static double noiseSd(FaceProfiles face, ImplantEdge[] edges, HuVolume volume, MeasurementSettings settings) {
        VolumeGrid grid = volume.grid();
        Set<Long> seen = new HashSet<>();
        double[] differences = new double[edges.length * 8];
        int count = 0;
        for (int n = 0; n < edges.length && count < differences.length; n++) {
            if (Double.isNaN(edges[n].tMm()) || face.cutsMm()[n] < edges[n].tMm() + settings.hostToMm()) {
                continue;
            }
            for (double t = settings.hostFromMm(); t <= settings.hostToMm(); t += 1) {
                VoxelCoord c = grid.patientToVoxel(face.points()[n].along(face.normals()[n], edges[n].tMm() + t));
                int i = (int) Math.round(c.i());
                int j = (int) Math.round(c.j());
                int k = (int) Math.round(c.k());
                boolean inside =
                        i >= 0 && j >= 0 && k >= 0 && i + 1 < grid.columns() && j < grid.rows() && k < grid.slices();
                if (inside && seen.add(((long) k * grid.rows() + j) * grid.columns() + i)) {
                    double d = volume.hu(i + 1, j, k) - volume.hu(i, j, k);
                    if (!Double.isNaN(d) && count < differences.length) {
                        differences[count++] = Math.abs(d);
                    }
                }
            }
        }
        if (count < MIN_NOISE_PAIRS) {
            return Double.NaN;
        }
        return 1.4826 * Quantiles.median(java.util.Arrays.copyOf(differences, count)) / Math.sqrt(2);
    }
}
