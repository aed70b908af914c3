package org.holdfast.exchange;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * A number, or the reason why there is none. Immutable.
 *
 * @param value the number, finite; empty where it is not stated
 * @param why why it is not stated, not blank; empty where it is
 */
public record Reported(OptionalDouble value, String why) {

    public Reported {
        Objects.requireNonNull(value, "value");
        Objects.requireNonNull(why, "why");
        if (value.isPresent() && !Double.isFinite(value.getAsDouble())) {
            throw new IllegalArgumentException("a stated value must be finite, got " + value.getAsDouble());
        }
        if (value.isPresent() != why.isBlank()) {
            throw new IllegalArgumentException("either a value or the reason why not, got reason '" + why + "'");
        }
    }

    /** A number that is stated. */
    public static Reported of(double value) {
        return new Reported(OptionalDouble.of(value), "");
    }

    /** No number, and why. */
    public static Reported notStated(String why) {
        return new Reported(OptionalDouble.empty(), why);
    }
}
