package org.holdfast.app;

import java.util.Objects;

/**
 * Something that must be answered before exams are taken in. Immutable.
 *
 * @param about what it is about
 * @param examId the exam that it is about; empty text if it is about none
 * @param text the question as a statement, such as "The subject has no code yet"
 */
public record TakeInQuestion(About about, String examId, String text) {

    /** What a question is about, and so where it is answered. */
    public enum About {
        CODE,
        SURGERY,
        DATE,
        LABEL,
        FOLDER,
        EXAMS
    }

    public TakeInQuestion {
        Objects.requireNonNull(about, "about");
        Objects.requireNonNull(examId, "examId");
        Objects.requireNonNull(text, "text");
    }
}
