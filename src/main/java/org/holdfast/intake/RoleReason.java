package org.holdfast.intake;

import java.util.Objects;

/**
 * One reason for the role of a series. Immutable.
 *
 * @param bearing whether it speaks for measuring on the series
 * @param text the reason in words, with values and units
 */
public record RoleReason(Bearing bearing, String text) {

    /** Which way a reason points. */
    public enum Bearing {
        /** Speaks for measuring on it. */
        FOR,
        /** Speaks against measuring on it, or limits what may be concluded. */
        AGAINST,
        /** To be known, without speaking for or against. */
        NOTE
    }

    public RoleReason {
        Objects.requireNonNull(bearing, "bearing");
        if (text == null || text.isBlank()) {
            throw new IllegalArgumentException("text of a reason must not be blank");
        }
    }

    static RoleReason speaksFor(String text) {
        return new RoleReason(Bearing.FOR, text);
    }

    static RoleReason speaksAgainst(String text) {
        return new RoleReason(Bearing.AGAINST, text);
    }

    static RoleReason note(String text) {
        return new RoleReason(Bearing.NOTE, text);
    }
}
