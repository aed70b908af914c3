package org.holdfast.registration;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.RigidTransform;

/** A pose that was found, or why none is given. Immutable. */
public sealed interface PoseResult {

    /** The pose, where one was found. */
    Optional<Found> found();

    /**
     * A pose that holds.
     *
     * @param referenceToExam from patient space of the reference exam to that of the exam
     * @param quality how well the two agree
     * @param uncertainty standard errors, and the motions that the points do not determine (these stay as they started)
     */
    record Found(RigidTransform referenceToExam, PoseQuality quality, PoseUncertainty uncertainty)
            implements PoseResult {

        public Found {
            Objects.requireNonNull(referenceToExam, "referenceToExam");
            Objects.requireNonNull(quality, "quality");
            Objects.requireNonNull(uncertainty, "uncertainty");
        }

        @Override
        public Optional<Found> found() {
            return Optional.of(this);
        }
    }

    /**
     * No pose is given.
     *
     * @param reason why, in words for a person
     * @param nearest the pose that came nearest, for a person to look at; never to be used unseen
     */
    record Refused(String reason, Optional<Found> nearest) implements PoseResult {

        public Refused {
            Objects.requireNonNull(reason, "reason");
            Objects.requireNonNull(nearest, "nearest");
        }

        static Refused because(String reason) {
            return new Refused(reason, Optional.empty());
        }

        @Override
        public Optional<Found> found() {
            return Optional.empty();
        }
    }
}
