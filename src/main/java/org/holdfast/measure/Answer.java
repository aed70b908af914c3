package org.holdfast.measure;

import java.util.Objects;
import java.util.Optional;

/**
 * A result, or the reason why there is none; what {@link Stated} is for a number. Immutable if the result is.
 *
 * @param value the result, if there is one
 * @param why the reason, empty if there is a result
 * @param <T> kind of result
 */
public record Answer<T>(Optional<T> value, String why) {

    public Answer {
        Objects.requireNonNull(value, "value");
        if (value.isPresent() == !why.isEmpty()) {
            throw new IllegalArgumentException("either a result or a reason, got " + value + " and '" + why + "'");
        }
    }

    /** A result. */
    public static <T> Answer<T> of(T value) {
        return new Answer<>(Optional.of(value), "");
    }

    /** No result, and why. */
    public static <T> Answer<T> not(String why) {
        return new Answer<>(Optional.empty(), why);
    }
}
