package org.holdfast.dicom;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalInt;

/** A file could not be read as DICOM: names the file, the place, what was expected and what was found. */
public final class DicomReadException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient Path file;
    private final long offset;
    private final transient OptionalInt tag;
    private final String expected;
    private final String got;

    /**
     * @param file the file, or a name for bytes that are not in a file
     * @param offset byte offset of the trouble, or −1 if it is about the file as a whole
     * @param tag data element that was being read, if any
     * @param expected what a good file has there
     * @param got what was found
     * @param cause what the system said, or null
     */
    public DicomReadException(Path file, long offset, OptionalInt tag, String expected, String got, Throwable cause) {
        super(message(file, offset, tag, expected, got), cause);
        this.file = Objects.requireNonNull(file, "file");
        this.offset = offset;
        this.tag = tag;
        this.expected = expected;
        this.got = got;
    }

    private static String message(Path file, long offset, OptionalInt tag, String expected, String got) {
        String at = offset < 0 ? "" : String.format(Locale.ROOT, " at byte %d", offset);
        String element = tag.isPresent() ? " " + Tag.format(tag.getAsInt()) : "";
        return file + at + element + ": expected " + expected + ", got " + got;
    }

    /** Whether memory ran out, so that reading the file alone may succeed. */
    public boolean isOutOfMemory() {
        return getCause() instanceof OutOfMemoryError;
    }

    /** The file that could not be read. */
    public Path file() {
        return file;
    }

    /** Byte offset of the trouble; −1 if it is about the file as a whole. */
    public long offset() {
        return offset;
    }

    /** Data element that was being read; empty if none. */
    public OptionalInt tag() {
        return tag;
    }

    /** What a good file has there. */
    public String expected() {
        return expected;
    }

    /** What was found. */
    public String got() {
        return got;
    }

    /** The reason without the file's name. */
    public String reason() {
        return getMessage().substring(file.toString().length()).replaceFirst("^[ :]+", "");
    }
}
