package org.holdfast.finding;

import java.util.Objects;

/**
 * One thing that a person should know about data which could still be used. Immutable and safe to share between threads.
 *
 * @param code stable identifier for scripts, upper case with underscores, such as {@code IRREGULAR_SPACING}
 * @param severity how much it limits what can be concluded
 * @param text one sentence for a reader, with the values and units that led to it
 * @param where file, series, slice or field it is about; empty where it is about the whole input
 */
public record Finding(String code, Severity severity, String text, String where) {

    public Finding {
        Objects.requireNonNull(severity, "severity");
        Objects.requireNonNull(where, "where");
        if (code == null || !code.matches("[A-Z][A-Z0-9_]*")) {
            throw new IllegalArgumentException("code must match [A-Z][A-Z0-9_]*, got " + code);
        }
        if (text == null || text.isBlank()) {
            throw new IllegalArgumentException("text of finding " + code + " must not be blank");
        }
    }

    /** Something to know that limits nothing. */
    public static Finding info(String code, String text, String where) {
        return new Finding(code, Severity.INFO, text, where);
    }

    /** Something that limits what may be concluded. */
    public static Finding warning(String code, String text, String where) {
        return new Finding(code, Severity.WARNING, text, where);
    }

    /** Something that made a part of the input unusable. */
    public static Finding error(String code, String text, String where) {
        return new Finding(code, Severity.ERROR, text, where);
    }
}
