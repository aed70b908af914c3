package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;
import org.holdfast.intake.RadiographFile;

/**
 * An exam of radiographs, their headers read. Immutable.
 *
 * @param argument the exam as it was named
 * @param films at least one
 * @param findings what a person should know about it
 * @param days days since surgery; empty if the exam is undated
 * @param label column label
 */
record OpenedFilms(
        ExamArgument argument, List<RadiographFile> films, List<Finding> findings, OptionalInt days, String label)
        implements Opened {

    OpenedFilms {
        films = List.copyOf(films);
        findings = List.copyOf(findings);
    }

    /** The day of the first film that has one. */
    static Optional<LocalDate> day(List<RadiographFile> films) {
        return films.stream()
                .flatMap(film -> film.file().date().date().stream())
                .findFirst();
    }

    @Override
    public Path firstFile() {
        return films.get(0).file().path();
    }

    /** What a review shows of it. */
    FilmExam exam() {
        return exam(films, days, findings);
    }

    /** What a review shows of radiographs. */
    static FilmExam exam(List<RadiographFile> films, OptionalInt days, List<Finding> findings) {
        return new FilmExam(
                films.stream()
                        .map(film ->
                                new FilmExam.Film(film.file().identity().modality(), film.facts(), film.findings()))
                        .toList(),
                days,
                findings);
    }

    /** How it stands in a report of measurements. */
    FilmResult result() {
        return new FilmResult(
                label,
                films.stream()
                        .map(film -> film.file().identity().seriesInstanceUid())
                        .distinct()
                        .toList(),
                days,
                findings);
    }
}
