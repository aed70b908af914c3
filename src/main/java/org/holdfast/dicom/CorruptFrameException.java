package org.holdfast.dicom;

import java.io.Serial;
import java.util.Objects;

/** A compressed frame that cannot be decoded; {@link PixelReader} says of which file. */
final class CorruptFrameException extends Exception {

    @Serial
    private static final long serialVersionUID = 1;

    private final long offset;
    private final String expected;
    private final String got;

    /**
     * @param offset byte of the frame, or −1 if not known
     * @param expected what should be there
     * @param got what is there
     */
    CorruptFrameException(long offset, String expected, String got) {
        this(offset, expected, got, null);
    }

    CorruptFrameException(long offset, String expected, String got, Throwable cause) {
        super("expected " + expected + ", got " + got, cause);
        this.offset = offset;
        this.expected = Objects.requireNonNull(expected, "expected");
        this.got = Objects.requireNonNull(got, "got");
    }

    long offset() {
        return offset;
    }

    String expected() {
        return expected;
    }

    String got() {
        return got;
    }
}
