package org.holdfast.volume;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * What of a scan decides whether its HU may be compared with another's.
 *
 * @param acquisition how it was made
 * @param grid where its voxels lie
 * @param noiseSdHu standard deviation of HU in uniform tissue, above 0; empty where it was not measured
 */
public record ScanFacts(Acquisition acquisition, VolumeGrid grid, OptionalDouble noiseSdHu) {
    public ScanFacts {
        Objects.requireNonNull(acquisition, "acquisition");
        Objects.requireNonNull(grid, "grid");
        if (noiseSdHu.isPresent() && !(noiseSdHu.getAsDouble() > 0)) {
            throw new IllegalArgumentException("noiseSdHu must be above 0, got " + noiseSdHu.getAsDouble());
        }
    }
}
