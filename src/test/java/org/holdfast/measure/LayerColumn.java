package org.holdfast.measure;

import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Volumes for {@link LayeredFace}'s construct whose HU follow the closed form of blurred layers along z, the solid core under
 * the porous layer of 3 mm included: core | layer | fluid in a gap | bone.
 *
 * @param coreHu HU of the core
 * @param layerHu HU of the porous layer
 * @param gapMm width of the gap
 * @param boneHu HU of the bone
 */
record LayerColumn(double coreHu, double layerHu, double gapMm, double boneHu) {

    static final double SIGMA_MM = 0.42;
    private static final double FLUID_HU = 30;

    double hu(double z) {
        return coreHu
                + (layerHu - coreHu) * ProfileModel.normalCdf((z + 3) / SIGMA_MM)
                + (FLUID_HU - layerHu) * ProfileModel.normalCdf(z / SIGMA_MM)
                + (boneHu - FLUID_HU) * ProfileModel.normalCdf((z - gapMm) / SIGMA_MM);
    }

    /** An exam in which these layers lie for x &lt; 0 and others for x ≥ 0, every HU times a gain. */
    ExamScan exam(LayerColumn others, double gain, String label, Acquisition acquisition, RigidTransform pose) {
        VolumeGrid grid = LayeredFace.grid();
        int side = grid.columns();
        short[][] hu = new short[grid.slices()][side * grid.rows()];
        for (int k = 0; k < hu.length; k++) {
            for (int n = 0; n < hu[k].length; n++) {
                LayerColumn column = n % side < side / 2 ? this : others;
                hu[k][n] = (short) Math.rint(gain * column.hu(grid.positionMm(k)));
            }
        }
        return new ExamScan(
                label,
                "1.2.3",
                label,
                HuVolume.ofHu(grid, hu),
                acquisition,
                new PointSpreadEstimate(0.38, 0.38, PointSpreadEstimate.Source.GIVEN),
                pose,
                ExamScan.PoseKind.IDENTITY);
    }

    ExamScan exam(String label) {
        return exam(this, 1, label, Acquisition.unknown(), RigidTransform.IDENTITY);
    }
}
