package org.holdfast.volume;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Grids with hand-made numbers and volumes on them. */
final class TestGrids {

    static final PatientVector X = PatientVector.LEFT;
    static final PatientVector Y = PatientVector.POSTERIOR;
    static final PatientVector Z = PatientVector.CRANIAL;

    private TestGrids() {}

    /** HU of a voxel. */
    interface Field {
        int hu(int i, int j, int k);
    }

    static List<PatientPoint> origins(PatientPoint first, PatientVector step, int slices) {
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(first.plus(step.times(k)));
        }
        return origins;
    }

    /** Columns 0.5 mm, rows 0.75 mm, slices 2 mm apart, along the axes, first voxel at (−10, 20, 300). */
    static VolumeGrid anisotropic() {
        return new VolumeGrid(
                20, 16, 0.5, 0.75, X, Y, origins(new PatientPoint(-10, 20, 300), new PatientVector(0, 0, 2), 12));
    }

    /** A gantry tilted so that each slice steps 0.5 mm to posterior for 2 mm to cranial; turned by 3-4-5 about z. */
    static VolumeGrid shearedAndTurned() {
        return new VolumeGrid(
                18,
                14,
                0.5,
                0.75,
                new PatientVector(0.6, 0.8, 0),
                new PatientVector(-0.8, 0.6, 0),
                origins(new PatientPoint(5, -6, 7), new PatientVector(-0.4, 0.3, 2), 11));
    }

    /** Steps of 1, 1, 1.5, 1, 4 (a hole), 1, 1 mm, each with a shift of a quarter of it to posterior. */
    static VolumeGrid irregularWithHole() {
        double[] z = {0, 1, 2, 3.5, 4.5, 8.5, 9.5, 10.5};
        List<PatientPoint> origins = new ArrayList<>();
        for (double at : z) {
            origins.add(new PatientPoint(3, 0.25 * at, at));
        }
        return new VolumeGrid(12, 10, 0.5, 0.25, X, Y, origins);
    }

    static HuVolume volume(VolumeGrid grid, Field field) {
        short[][] hu = new short[grid.slices()][grid.columns() * grid.rows()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int j = 0; j < grid.rows(); j++) {
                for (int i = 0; i < grid.columns(); i++) {
                    hu[k][i + grid.columns() * j] = (short) field.hu(i, j, k);
                }
            }
        }
        return HuVolume.ofHu(grid, hu);
    }

    /** HU drawn from −1024 to 3071, and a share of voxels without tissue. */
    static HuVolume noise(VolumeGrid grid, double shareWithoutTissue, long seed) {
        Random random = new Random(seed);
        return volume(
                grid, (i, j, k) -> random.nextDouble() < shareWithoutTissue ? -2000 : random.nextInt(4096) - 1024);
    }
}
