package org.holdfast.cli;

/** The three exit codes that scripts rely on. */
public final class ExitCode {

    /** Done; for many inputs: at least one was read. */
    public static final int DONE = 0;

    /** The data do not allow it, or a check failed; the message says why. */
    public static final int NOT_POSSIBLE = 1;

    /** Wrong use: an unknown command or option, a missing or malformed argument. */
    public static final int WRONG_USE = 2;

    private ExitCode() {}
}
