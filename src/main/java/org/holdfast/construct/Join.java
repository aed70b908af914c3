package org.holdfast.construct;

import java.util.Objects;

/**
 * One component held to another.
 *
 * @param from id of the part that is held
 * @param to id of the part that holds it, another one
 * @param kind how
 */
public record Join(String from, String to, JoinKind kind) {
    public Join {
        Rule.id("from", from);
        Rule.id("to", to);
        Objects.requireNonNull(kind, "kind");
        if (from.equals(to)) {
            throw new InvalidField("to", "another component than from", Rule.quoted(to));
        }
    }
}
