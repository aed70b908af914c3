package org.holdfast.geometry;

/** A mesh file that cannot be read: which file, where in it, what was expected and what was found. */
public final class MeshReadException extends Exception {

    private static final long serialVersionUID = 1L;

    /**
     * @param file name of the file
     * @param place line or byte, in words; empty for the file as a whole
     * @param expected what was expected
     * @param got what was found
     * @param cause what led to it; null if nothing did
     */
    MeshReadException(String file, String place, String expected, String got, Throwable cause) {
        super(file + ": " + (place.isEmpty() ? "" : place + ": ") + "expected " + expected + ", found " + got, cause);
    }
}
