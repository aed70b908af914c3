package org.holdfast.phantom;

import java.util.Objects;
import org.holdfast.volume.VolumeGrid;

/**
 * How a scene is scanned.
 *
 * @param grid where the voxels lie; at least two slices; may be sheared
 * @param pointSpread blur along the grid's rows and columns and along its normal
 * @param noiseSdHu standard deviation of the noise of a voxel, HU, ≥ 0; white and Gaussian, unlike a scanner's, whose
 *     noise is correlated between neighbours
 * @param seed start of the noise; the same seed gives the same voxels, whatever the number of threads
 * @param scale HU scale that is written
 */
public record ScanSettings(VolumeGrid grid, PointSpread pointSpread, double noiseSdHu, long seed, HuScale scale) {

    public ScanSettings {
        Objects.requireNonNull(pointSpread, "pointSpread");
        Objects.requireNonNull(scale, "scale");
        Require.notNegative(noiseSdHu, "noiseSdHu");
        if (grid.slices() < 2) {
            throw new IllegalArgumentException("a scan needs at least two slices, got " + grid.slices());
        }
    }

    /** Height of a voxel along the normal: the grid's pitch, mm. */
    double voxelHeightMm() {
        return grid.pitchMm().orElseThrow();
    }
}
