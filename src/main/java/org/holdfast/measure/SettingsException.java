package org.holdfast.measure;

/** A settings document that cannot be used; the message names the field, what was expected and what was found. */
public final class SettingsException extends Exception {
    private static final long serialVersionUID = 1L;

    /** @param message field, expected, found */
    public SettingsException(String message) {
        super(message);
    }

    /**
     * @param message field, expected, found
     * @param cause what the JSON reader or the range check said
     */
    public SettingsException(String message, Throwable cause) {
        super(message, cause);
    }
}
