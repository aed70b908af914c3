package org.holdfast.figure;

import java.util.Objects;

/** What was found at one sample of a face. All are immutable. */
public sealed interface FaceState {

    /** Bone without a visible gap that hangs together with the host bone. */
    record Bridged() implements FaceState {}

    /** Bone without a visible gap. */
    record Contact() implements FaceState {}

    /**
     * Bone beyond a gap.
     *
     * @param widthMm width of the gap, mm, above 0
     */
    record Gap(double widthMm) implements FaceState {
        public Gap {
            if (!(widthMm > 0 && Double.isFinite(widthMm))) {
                throw new IllegalArgumentException("widthMm of a gap must be above 0, got " + widthMm);
            }
        }
    }

    /** No bone within reach. */
    record NoBone() implements FaceState {}

    /**
     * Nothing can be said here.
     *
     * @param cause why, in few words
     */
    record NotAssessable(String cause) implements FaceState {
        public NotAssessable {
            Objects.requireNonNull(cause, "cause");
        }
    }
}
