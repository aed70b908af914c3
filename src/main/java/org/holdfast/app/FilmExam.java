package org.holdfast.app;

import java.util.List;
import java.util.Objects;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;
import org.holdfast.volume.FilmFacts;

/**
 * What the files of an exam of radiographs say, before any pixel is read. Immutable.
 *
 * @param films at least one, best for looking at first: from the front, from the side, others
 * @param daysSinceSurgery days from the operation, by the files or the subject's document; empty if undated
 * @param findings what a person should know about the exam
 */
public record FilmExam(List<Film> films, OptionalInt daysSinceSurgery, List<Finding> findings) {

    /**
     * One radiograph.
     *
     * @param modality modality as written, such as DX
     * @param facts what is known of it but its pixels
     * @param findings what was odd about it
     */
    public record Film(String modality, FilmFacts facts, List<Finding> findings) {

        public Film {
            Objects.requireNonNull(modality, "modality");
            Objects.requireNonNull(facts, "facts");
            findings = List.copyOf(findings);
        }
    }

    public FilmExam {
        films = List.copyOf(films);
        findings = List.copyOf(findings);
        Objects.requireNonNull(daysSinceSurgery, "daysSinceSurgery");
        if (films.isEmpty()) {
            throw new IllegalArgumentException("an exam of radiographs has at least one");
        }
    }
}
