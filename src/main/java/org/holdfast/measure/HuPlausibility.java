package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Is HU worth trusting? Muscle beside the spine must read 0 to 90 HU and air under −900 HU, else a warning. The places
 * are named in the finding, so that a person can look whether they are muscle and air.
 */
public final class HuPlausibility {

    private static final double AIR_HIGH_HU = -900;
    /** What is darker may be air: midway between water and air by definition of the scale. */
    private static final double AIR_CANDIDATE_HU = -500;
    /** Air is even: 3 × 3 voxels of a slice that differ by more are not taken for air but for lung or an edge. */
    private static final double AIR_RANGE_HU = 100;
    /** Fewer voxels than this are not a region. */
    private static final int MIN_VOXELS = 200;

    private HuPlausibility() {}

    /** Findings on muscle and air of one exam; empty where both read as they should. */
    public static List<Finding> check(HuVolume volume, Axes axes, RigidTransform referenceToExam, String exam) {
        List<Finding> findings = new ArrayList<>();
        checkMuscle(volume, axes, referenceToExam, exam, findings);
        checkAir(volume, exam, findings);
        return findings;
    }

    private static void checkMuscle(
            HuVolume volume, Axes axes, RigidTransform referenceToExam, String exam, List<Finding> findings) {
        Optional<MuscleRegion> region = MuscleRegion.find(volume, axes, referenceToExam);
        if (region.isEmpty()) {
            findings.add(Finding.info(
                    "MUSCLE_NOT_CHECKED", "No paraspinal region lies in the image, muscle HU were not checked.", exam));
        } else if (!region.get().isPlausible()) {
            PatientPoint place = region.get().inExam();
            findings.add(Finding.warning(
                    "MUSCLE_HU",
                    String.format(
                            Locale.ROOT,
                            "The paraspinal region nearest to muscle, %.0f mm round (%.1f, %.1f, %.1f), reads %.0f HU;"
                                    + " muscle should read 0 to 90. Look whether it is muscle; if so, HU of this series"
                                    + " are not to be trusted.",
                            MuscleRegion.RADIUS_MM,
                            place.x(),
                            place.y(),
                            place.z(),
                            region.get().medianHu()),
                    exam));
        }
    }

    private static void checkAir(HuVolume volume, String exam, List<Finding> findings) {
        VolumeGrid grid = volume.grid();
        double[] air = new double[20000];
        int count = 0;
        int step = Math.max(1, grid.columns() / 128);
        int sliceStep = Math.max(1, grid.slices() / 16);
        for (int k = 0; k < grid.slices(); k += sliceStep) {
            for (int j = 1; j < grid.rows() - 1; j += step) {
                for (int i = 1; i < grid.columns() - 1 && count < air.length; i += step) {
                    if (isEvenAndDark(volume, i, j, k)) {
                        air[count++] = volume.hu(i, j, k);
                    }
                }
            }
        }
        double median = Quantiles.median(Arrays.copyOf(air, count));
        if (count < MIN_VOXELS) {
            findings.add(Finding.info("AIR_NOT_CHECKED", "Too little air lies in the image to check its HU.", exam));
        } else if (median >= AIR_HIGH_HU) {
            findings.add(Finding.warning(
                    "AIR_HU",
                    String.format(
                            Locale.ROOT,
                            "Air in the image reads %.0f HU (median of what is even and under %.0f HU); it should"
                                    + " read under −900. Look whether it is air and not lung; if so, HU of this series"
                                    + " are not to be trusted.",
                            median,
                            AIR_CANDIDATE_HU),
                    exam));
        }
    }

    /** Whether 3 × 3 voxels of a slice are valid, all dark and nearly alike. */
    private static boolean isEvenAndDark(HuVolume volume, int i, int j, int k) {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int n = 0; n < 9; n++) {
            double hu = volume.hu(i - 1 + n % 3, j - 1 + n / 3, k);
            // Also false where the voxel carries no tissue, NaN.
            if (!(hu < AIR_CANDIDATE_HU)) {
                return false;
            }
            lowest = Math.min(lowest, hu);
            highest = Math.max(highest, hu);
        }
        return highest - lowest <= AIR_RANGE_HU;
    }
}
