package org.holdfast.app;

import java.util.Objects;

/**
 * One thing to know about what was found, for a person. Immutable.
 *
 * @param mark what it means for the use of the series
 * @param text a clause without a full stop
 */
public record IntakeNote(Mark mark, String text) {

    /** What a note means; each has a mark of its own. */
    public enum Mark {
        /** As it should be. */
        GOOD,
        /** Worth knowing. */
        KNOWN,
        /** To be kept in mind with every number. */
        CAUTION,
        /** Limits what may be concluded. */
        LIMIT,
        /** A part cannot be used, or must not be shown. */
        FAULT,
        /** Asks something of the person. */
        QUESTION
    }

    public IntakeNote {
        Objects.requireNonNull(mark, "mark");
        Objects.requireNonNull(text, "text");
    }
}
