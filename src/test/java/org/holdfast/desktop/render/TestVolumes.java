package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/** Small volumes with hand-made numbers, voxels of 1 mm along the axes, first voxel at the origin. */
final class TestVolumes {

    static final HuWindow WINDOW = new HuWindow(100, 255);

    private TestVolumes() {}

    /** 12 columns, 10 rows, HU = 10·i + 40·height + constant, slices at the given heights in mm. */
    static HuVolume ramp(int constantHu, double... heightsMm) {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[heightsMm.length][12 * 10];
        for (int k = 0; k < heightsMm.length; k++) {
            origins.add(new PatientPoint(0, 0, heightsMm[k]));
            for (int n = 0; n < hu[k].length; n++) {
                hu[k][n] = (short) (10 * (n % 12) + 40 * heightsMm[k] + constantHu);
            }
        }
        return HuVolume.ofHu(new VolumeGrid(12, 10, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins), hu);
    }

    static HuVolume ramp() {
        return ramp(0, 0, 1, 2, 3);
    }

    /** A cut of 12 × 10 pixels through the voxel centres of a slice. */
    static CutRequest slice(HuVolume volume, double heightMm) {
        CutPlane plane =
                new CutPlane(new PatientPoint(0, 0, heightMm), PatientVector.LEFT, PatientVector.POSTERIOR, 12, 10);
        return new CutRequest(volume, plane, Optional.empty(), WINDOW);
    }
}
