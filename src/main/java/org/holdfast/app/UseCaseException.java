package org.holdfast.app;

/** The data do not allow what was asked; the message says which file or field, what was expected and what was found. */
public final class UseCaseException extends Exception {
    private static final long serialVersionUID = 1L;

    /** @param message for a person */
    public UseCaseException(String message) {
        super(message);
    }

    /**
     * @param message for a person
     * @param cause what the border package said
     */
    public UseCaseException(String message, Throwable cause) {
        super(message, cause);
    }
}
