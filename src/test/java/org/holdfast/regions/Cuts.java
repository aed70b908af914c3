package org.holdfast.regions;

import java.util.List;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.VolumeGrid;

/** Cuts whose pixels are the voxels of a slice, so that their HU are known exactly; 0.5 mm wide and 0.75 mm high. */
final class Cuts {

    static final double WIDTH_MM = 0.5;
    static final double HEIGHT_MM = 0.75;
    /** HU of a voxel without tissue. */
    static final int NONE = -2000;

    private Cuts() {}

    /** HU of a pixel. */
    interface Field {
        int hu(int x, int y);
    }

    static Cut of(int width, int height, Field field) {
        short[] hu = new short[width * height];
        for (int n = 0; n < hu.length; n++) {
            hu[n] = (short) field.hu(n % width, n / width);
        }
        PatientPoint origin = new PatientPoint(-3, 8, 40);
        VolumeGrid grid = new VolumeGrid(
                width,
                height,
                WIDTH_MM,
                HEIGHT_MM,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                List.of(origin, origin.along(PatientVector.CRANIAL, 2)));
        CutPlane plane = new CutPlane(
                origin, PatientVector.LEFT.times(WIDTH_MM), PatientVector.POSTERIOR.times(HEIGHT_MM), width, height);
        return Reslicer.cut(HuVolume.ofHu(grid, new short[][] {hu, hu.clone()}), plane, Optional.empty());
    }
}
