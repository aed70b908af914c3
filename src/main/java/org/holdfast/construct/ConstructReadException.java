package org.holdfast.construct;

/** A construct document that cannot be read, with where in it and what was expected there. */
public final class ConstructReadException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String source;
    private final String path;
    private final String expected;
    private final String got;

    ConstructReadException(String source, String path, String expected, String got, Throwable cause) {
        super(source + ": " + (path.isEmpty() ? "" : path + ": ") + "expected " + expected + ", got " + got, cause);
        this.source = source;
        this.path = path;
        this.expected = expected;
        this.got = got;
    }

    /** Name of the file or of what else was read. */
    public String source() {
        return source;
    }

    /** Place in the document, such as {@code components[2].screw.tipMm}; empty for the document as a whole. */
    public String path() {
        return path;
    }

    /** What should have been there. */
    public String expected() {
        return expected;
    }

    /** What was there. */
    public String got() {
        return got;
    }
}
