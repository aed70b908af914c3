package org.holdfast.measure;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;
import org.holdfast.volume.VoxelIndex;

/**
 * The host bone opposite a face on the reference exam, and the bone threshold that follows from it; fixed for all exams
 * of the subject.
 *
 * @param hostHu median HU of the host bone at the depth where it is read
 * @param boneHu HU from which tissue counts as bone
 * @param rule how the threshold came about, in words
 */
record HostBone(Stated hostHu, double boneHu, String rule) {

    private static final String NO_HOST = "no valid image at the depth where host bone is read";
    /** Tissue no brighter than fluid and this is not host bone. */
    private static final double NEAR_FLUID_HU = 5;
    /** Fewer pairs than this give no figure for the noise. */
    private static final int MIN_NOISE_PAIRS = 30;

    private static final int MAX_NOISE_PAIRS = 20_000;

    /**
     * Reads the host bone of the reference exam.
     *
     * @param noiseSdHu standard deviation of a voxel's noise there; NaN if it is not known
     */
    static HostBone read(FaceInExam seen, double noiseSdHu, MeasurementSettings settings) {
        double host = seen.hostHu(settings);
        if (host <= settings.fluidHu() + NEAR_FLUID_HU) {
            String why = String.format(
                    Locale.ROOT, "no bone opposite the face: %.0f HU at the depth where host bone is read", host);
            return new HostBone(Stated.not(why), settings.fixedBoneHu(), "fixed, since " + why);
        }
        Stated hostHu = Stated.ofOrNot(host, NO_HOST);
        if (settings.boneThreshold() == BoneThreshold.FIXED || Double.isNaN(host)) {
            String rule = settings.boneThreshold() == BoneThreshold.FIXED
                    ? "fixed"
                    : "fixed, since host bone could not be read";
            return new HostBone(hostHu, settings.fixedBoneHu(), rule);
        }
        double midway = 0.5 * (settings.fluidHu() + host);
        double floor = settings.fluidHu() + settings.noiseMultiple() * (Double.isNaN(noiseSdHu) ? 0 : noiseSdHu);
        double bone = Math.min(settings.maxBoneHu(), Math.max(midway, floor));
        String reason = bone == midway
                ? "midway between fluid and host bone"
                : bone == floor
                        ? String.format(Locale.ROOT, "fluid + %s × noise SD", settings.noiseMultiple())
                        : "upper limit";
        return new HostBone(hostHu, bone, reason);
    }

    /** Median HU at the depth where host bone is read; NaN where the edge or the image is missing. */
    static double depthHu(Profile profile, double edgeMm, double cutMm, MeasurementSettings settings) {
        if (Double.isNaN(edgeMm) || cutMm < edgeMm + settings.hostToMm()) {
            return Double.NaN;
        }
        return profile.median(edgeMm + settings.hostFromMm(), edgeMm + settings.hostToMm());
    }

    /**
     * Standard deviation of the noise from differences d of voxels that touch in a row, each pair once: for Gaussian noise
     * E|d| = 2 SD / √π, so SD = √π / 2 · mean |d|. Differences over five times the median are left out (none where more
     * than half are 0, as on coarse steps of HU). The bone's own slow changes hardly enter; noise that is correlated between neighbours is underestimated. NaN for too few pairs.
     */
    static double noiseSd(FaceInExam seen, HuVolume volume, MeasurementSettings settings) {
        VolumeGrid grid = volume.grid();
        FaceProfiles face = seen.profiles();
        Set<Long> done = new HashSet<>();
        double[] differences = new double[MAX_NOISE_PAIRS];
        int count = 0;
        for (int n = 0; n < seen.size() && count < MAX_NOISE_PAIRS; n++) {
            double edge = seen.edges()[n].tMm();
            if (Double.isNaN(edge) || face.cutsMm()[n] < edge + settings.hostToMm()) {
                continue;
            }
            for (double t = settings.hostFromMm(); t <= settings.hostToMm() && count < MAX_NOISE_PAIRS; t += 1) {
                VoxelCoord c = grid.patientToVoxel(face.points()[n].along(face.normals()[n], edge + t));
                int i = (int) Math.round(c.i());
                int j = (int) Math.round(c.j());
                int k = (int) Math.round(c.k());
                boolean inside = grid.contains(new VoxelIndex(i, j, k)) && i + 1 < grid.columns();
                if (inside && done.add(((long) k * grid.rows() + j) * grid.columns() + i)) {
                    double d = volume.hu(i + 1, j, k) - volume.hu(i, j, k);
                    if (!Double.isNaN(d)) {
                        differences[count++] = Math.abs(d);
                    }
                }
            }
        }
        if (count < MIN_NOISE_PAIRS) {
            return Double.NaN;
        }
        double[] found = Arrays.copyOf(differences, count);
        double median = Quantiles.median(found);
        double far = median > 0 ? 5 * median : Double.POSITIVE_INFINITY;
        return 0.5
                * Math.sqrt(Math.PI)
                * Arrays.stream(found).filter(d -> d <= far).average().orElse(0);
    }
}
