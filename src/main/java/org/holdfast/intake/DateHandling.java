package org.holdfast.intake;

/** What de-identification does with dates. */
public enum DateHandling {
    /** All dates of a subject are shifted by the same days: the option with modified dates of PS3.15, section E.3.6. */
    SHIFTED,
    /** Dates and times are removed: the basic profile alone. */
    REMOVED
}
