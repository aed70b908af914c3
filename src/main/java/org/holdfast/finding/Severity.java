package org.holdfast.finding;

/** How much a {@link Finding} limits what can be concluded; in rising order. */
public enum Severity {
    /** Worth knowing; limits nothing. */
    INFO,
    /** Limits what may be concluded from the data. */
    WARNING,
    /** A part of the input could not be used. */
    ERROR
}
