package org.holdfast.volume;

import org.holdfast.geometry.PatientVector;

/** Rows of pixels on any grid, one {@link HuVolume#sample} each. */
final class SampledRows implements PixelRows {

    private final HuVolume volume;
    private final PatientVector step;

    SampledRows(HuVolume volume, PatientVector step) {
        this.volume = volume;
        this.step = step;
    }

    @Override
    public int patch() {
        return Integer.MAX_VALUE;
    }

    @Override
    public void fill(double x, double y, double z, int count, float[] hu, int at) {
        for (int n = 0; n < count; n++) {
            hu[at + n] = (float) volume.sample(x + n * step.x(), y + n * step.y(), z + n * step.z());
        }
    }
}
