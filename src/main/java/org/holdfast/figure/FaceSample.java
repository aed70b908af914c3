package org.holdfast.figure;

import java.util.Objects;

/**
 * One sample of an interface's face. Immutable.
 *
 * @param uMm place along the face's first direction, mm, drawn to the right
 * @param vMm place along the face's second direction, mm, drawn upwards
 * @param areaMm2 area that the sample stands for, mm², at least 0
 * @param state what was found
 */
public record FaceSample(double uMm, double vMm, double areaMm2, FaceState state) {

    public FaceSample {
        Objects.requireNonNull(state, "state");
        if (!Double.isFinite(uMm) || !Double.isFinite(vMm)) {
            throw new IllegalArgumentException("place of a sample must be finite, got " + uMm + ", " + vMm);
        }
        if (!(areaMm2 >= 0 && Double.isFinite(areaMm2))) {
            throw new IllegalArgumentException("areaMm2 must be at least 0, got " + areaMm2);
        }
    }
}
