package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.holdfast.construct.Axes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;
import org.holdfast.volume.VoxelIndex;

/**
 * A paraspinal region that may be muscle, and what it reads in one exam.
 *
 * @param place its middle on the reference exam
 * @param inExam its middle in the exam
 * @param medianHu median HU, which is held against what muscle should read
 * @param meanHu mean of its voxels, which is held against another exam
 * @param seHu standard error of the mean, HU, for white noise
 */
record MuscleRegion(PatientPoint place, PatientPoint inExam, double medianHu, double meanHu, double seHu) {

    static final double LOW_HU = 0;
    static final double HIGH_HU = 90;
    static final double RADIUS_MM = 5;

    /** Fewer points than this, 1 mm apart, are not a region. */
    private static final int MIN_POINTS = 200;
    /** Paraspinal muscle lies about so far beside and behind the vertebral body (common practice, no source). */
    private static final double[] LATERAL_MM = {-35, 35};

    private static final double[] POSTERIOR_MM = {35, 45, 55};
    /** Whether it reads as muscle should. */
    boolean isPlausible() {
        return medianHu >= LOW_HU && medianHu <= HIGH_HU;
    }

    /**
     * The proposed region nearest to what muscle should read, as bone and fat lie beside it; empty where none lies in the
     * image.
     */
    static Optional<MuscleRegion> find(HuVolume volume, Axes axes, RigidTransform referenceToExam) {
        List<MuscleRegion> found = new ArrayList<>();
        for (double lateral : LATERAL_MM) {
            for (double posterior : POSTERIOR_MM) {
                PatientPoint place = axes.origin().along(axes.left(), lateral).along(axes.posterior(), posterior);
                at(volume, place, referenceToExam).ifPresent(found::add);
            }
        }
        return found.stream().min((a, b) -> Double.compare(off(a), off(b)));
    }

    private static double off(MuscleRegion region) {
        return Math.abs(region.medianHu - 0.5 * (LOW_HU + HIGH_HU));
    }

    /** The region round one place; empty where it does not lie in the image. */
    static Optional<MuscleRegion> at(HuVolume volume, PatientPoint place, RigidTransform referenceToExam) {
        PatientPoint centre = referenceToExam.apply(place);
        double[] values = new double[4000];
        int count = 0;
        for (double x = -RADIUS_MM; x <= RADIUS_MM; x += 1) {
            for (double y = -RADIUS_MM; y <= RADIUS_MM; y += 1) {
                for (double z = -RADIUS_MM; z <= RADIUS_MM; z += 1) {
                    if (x * x + y * y + z * z <= RADIUS_MM * RADIUS_MM) {
                        double hu = volume.sample(centre.x() + x, centre.y() + y, centre.z() + z);
                        if (!Double.isNaN(hu)) {
                            values[count++] = hu;
                        }
                    }
                }
            }
        }
        if (count < MIN_POINTS) {
            return Optional.empty();
        }
        double median = Quantiles.median(Arrays.copyOf(values, count));
        double[] voxels = voxels(volume, centre);
        double mean = Arrays.stream(voxels).average().orElse(median);
        double squares = Arrays.stream(voxels).map(v -> (v - mean) * (v - mean)).sum();
        double se = Math.sqrt(squares / Math.max(1, voxels.length - 1) / Math.max(1, voxels.length));
        return Optional.of(new MuscleRegion(place, centre, median, mean, se));
    }

    /** HU of the valid voxels inside the region. */
    private static double[] voxels(HuVolume volume, PatientPoint centre) {
        VolumeGrid grid = volume.grid();
        VoxelCoord middle = grid.patientToVoxel(centre);
        double pitch = grid.pitchMm().orElse(1);
        // A shear moves slices sideways by no more than their distance from the middle.
        int reachI = (int) Math.ceil(2 * RADIUS_MM / grid.columnSpacingMm());
        int reachJ = (int) Math.ceil(2 * RADIUS_MM / grid.rowSpacingMm());
        int reachK = (int) Math.ceil(RADIUS_MM / pitch) + 1;
        DoubleStream.Builder inside = DoubleStream.builder();
        for (int k = Math.max(0, at(middle.k()) - reachK);
                k <= Math.min(grid.slices() - 1, at(middle.k()) + reachK);
                k++) {
            for (int j = Math.max(0, at(middle.j()) - reachJ);
                    j <= Math.min(grid.rows() - 1, at(middle.j()) + reachJ);
                    j++) {
                for (int i = Math.max(0, at(middle.i()) - reachI);
                        i <= Math.min(grid.columns() - 1, at(middle.i()) + reachI);
                        i++) {
                    double hu = volume.hu(i, j, k);
                    if (!Double.isNaN(hu)
                            && grid.voxelToPatient(new VoxelIndex(i, j, k)).distanceTo(centre) <= RADIUS_MM) {
                        inside.add(hu);
                    }
                }
            }
        }
        return inside.build().toArray();
    }

    private static int at(double coordinate) {
        return (int) Math.round(coordinate);
    }
}
