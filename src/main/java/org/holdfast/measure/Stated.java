package org.holdfast.measure;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * A number, or the reason why it is not stated; never NaN. Immutable.
 *
 * @param value the number, if it is stated
 * @param why the reason, empty if the number is stated
 */
public record Stated(OptionalDouble value, String why) {

    public Stated {
        Objects.requireNonNull(value, "value");
        if (value.isPresent() == !why.isEmpty()) {
            throw new IllegalArgumentException("either a number or a reason, got " + value + " and '" + why + "'");
        }
        if (value.isPresent() && !Double.isFinite(value.getAsDouble())) {
            throw new IllegalArgumentException("a stated number must be finite, got " + value.getAsDouble());
        }
    }

    /** A stated number. */
    public static Stated of(double value) {
        return new Stated(OptionalDouble.of(value), "");
    }

    /** A number that is not stated, and why. */
    public static Stated not(String why) {
        return new Stated(OptionalDouble.empty(), why);
    }

    /** The number, or not stated for this reason where it is NaN. */
    static Stated ofOrNot(double value, String why) {
        return Double.isNaN(value) ? not(why) : of(value);
    }
}
