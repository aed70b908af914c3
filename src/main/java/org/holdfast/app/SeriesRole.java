package org.holdfast.app;

import java.util.Locale;

/** What a series of an exam is for. */
public enum SeriesRole {
    /** The one that numbers are taken from. */
    MEASURE,
    /** Looked at beside the measured one, such as an artefact-reduced reconstruction; confirms nothing alone. */
    CONFIRM,
    /** Kept for viewing. */
    VIEW,
    /** Not taken in. */
    LEAVE_OUT;

    /** The role as a subject's document writes it. */
    public String written() {
        return name().toLowerCase(Locale.ROOT);
    }
}
