package org.holdfast.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/**
 * What was taken in. Immutable.
 *
 * @param folder the subject's folder
 * @param code the subject's code
 * @param exams how many exams were added
 * @param files how many files were written; 0 where images stay where they are
 * @param hasConstruct whether the construct is described, without which nothing can be measured
 * @param notes what a person should know
 */
public record TakenIn(Path folder, String code, int exams, int files, boolean hasConstruct, List<IntakeNote> notes) {

    public TakenIn {
        Objects.requireNonNull(folder, "folder");
        Objects.requireNonNull(code, "code");
        notes = List.copyOf(notes);
    }
}
