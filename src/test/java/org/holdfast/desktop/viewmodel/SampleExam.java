package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/** Small exams with hand-made grids; HU = 10·i + 20·j + 30·k. */
final class SampleExam {

    private SampleExam() {}

    /** 20 columns of 0.5 mm, 16 rows of 0.75 mm, 12 slices 2 mm apart, along the axes, first voxel at (−10, 20, 300). */
    static HuVolume straight() {
        return stack(new PatientVector(0, 0, 2), 12);
    }

    /** The same from a tilted gantry: each slice lies 0.5 mm further to posterior. */
    static HuVolume tilted() {
        return stack(new PatientVector(0, 0.5, 2), 12);
    }

    private static HuVolume stack(PatientVector step, int slices) {
        PatientPoint first = new PatientPoint(-10, 20, 300);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(first.plus(step.times(k)));
        }
        return volume(origins);
    }

    /** Slices at 300, 302, 304, 312, 314 mm: some are missing after the third. */
    static HuVolume withHole() {
        List<PatientPoint> origins = new ArrayList<>();
        for (double z : new double[] {300, 302, 304, 312, 314}) {
            origins.add(new PatientPoint(-10, 20, z));
        }
        return volume(origins);
    }

    private static HuVolume volume(List<PatientPoint> origins) {
        short[][] hu = new short[origins.size()][20 * 16];
        for (int k = 0; k < hu.length; k++) {
            for (int n = 0; n < hu[k].length; n++) {
                hu[k][n] = (short) (10 * (n % 20) + 20 * (n / 20) + 30 * k);
            }
        }
        return HuVolume.ofHu(
                new VolumeGrid(20, 16, 0.5, 0.75, PatientVector.LEFT, PatientVector.POSTERIOR, origins), hu);
    }
}
