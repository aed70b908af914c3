package org.holdfast.desktop.render;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * HU of a subject's tissues and implant, as far as they were measured. Immutable.
 *
 * @param fluidHu fluid and scar in a gap, a setting of the measurement
 * @param boneHu HU above which tissue counts as bone
 * @param hostHu host bone opposite the implant
 * @param plateauHu implant under its face
 */
public record HuLandmarks(double fluidHu, OptionalDouble boneHu, OptionalDouble hostHu, OptionalDouble plateauHu) {

    public HuLandmarks {
        Objects.requireNonNull(boneHu, "boneHu");
        Objects.requireNonNull(hostHu, "hostHu");
        Objects.requireNonNull(plateauHu, "plateauHu");
        if (!Double.isFinite(fluidHu)) {
            throw new IllegalArgumentException("fluidHu must be finite, got " + fluidHu);
        }
    }

    /** Nothing is measured yet. */
    public static HuLandmarks unmeasured(double fluidHu) {
        return new HuLandmarks(fluidHu, OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());
    }
}
