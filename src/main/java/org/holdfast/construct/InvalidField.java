package org.holdfast.construct;

/**
 * A value that breaks a rule of the construct, with the field's name as in the JSON document. Callers see an
 * {@link IllegalArgumentException}; the reader of a document puts the path of the enclosing object before the field.
 */
final class InvalidField extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    private final String field;
    private final String expected;
    private final String got;

    InvalidField(String field, String expected, Object got) {
        super(field + ": expected " + expected + ", got " + got);
        this.field = field;
        this.expected = expected;
        this.got = String.valueOf(got);
    }

    String field() {
        return field;
    }

    String expected() {
        return expected;
    }

    String got() {
        return got;
    }
}
