package org.holdfast.desktop.viewmodel;

import java.io.IOException;
import org.holdfast.finding.FileFailure;

/** What went wrong, for a person. */
public final class FailureText {

    private FailureText() {}

    /** One sentence; failures of the program itself say so. */
    public static String of(Throwable failure) {
        if (failure instanceof org.holdfast.app.UseCaseException) {
            return failure.getMessage();
        }
        if (failure instanceof IOException file) {
            return file.getMessage() + ": " + FileFailure.words(file);
        }
        if (failure instanceof OutOfMemoryError) {
            return "The memory does not suffice. HOLDFAST_JAVA_OPTS=-Xmx8g gives the program more.";
        }
        return "A fault of the program: " + failure;
    }
}
