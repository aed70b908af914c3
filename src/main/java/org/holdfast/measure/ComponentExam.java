package org.holdfast.measure;

import java.util.List;
import org.holdfast.construct.Component;

/**
 * One component in one exam: the verdict first, then what was measured on it. Immutable.
 *
 * @param component the component
 * @param examLabel the exam
 * @param verdict what can be asked
 * @param lucency zone around it, for a screw
 * @param continuity whether it is whole, for a screw or rod
 * @param migration one a bone that it belongs to
 * @param key key of the result for staleness
 */
public record ComponentExam(
        Component component,
        String examLabel,
        Verdict verdict,
        Answer<ScrewLucency> lucency,
        Answer<Continuity> continuity,
        List<Migration> migration,
        String key) {

    public ComponentExam {
        migration = List.copyOf(migration);
    }
}
