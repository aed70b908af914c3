package org.holdfast.desktop.state;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * How a schematic shows a part. Immutable.
 *
 * @param state the part's state in the exam
 * @param share of an interface, its contact share, 0 to 1; empty where there is none
 */
public record SchematicState(PartState state, OptionalDouble share) {

    /** A part that nothing is known of. */
    public static final SchematicState UNKNOWN = new SchematicState(PartState.NOT_MEASURED, OptionalDouble.empty());

    public SchematicState {
        Objects.requireNonNull(state, "state");
        if (share.isPresent() && !(share.getAsDouble() >= 0 && share.getAsDouble() <= 1)) {
            throw new IllegalArgumentException("share must lie in 0 to 1, got " + share.getAsDouble());
        }
    }
}
