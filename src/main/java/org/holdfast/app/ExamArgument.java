package org.holdfast.app;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;

/**
 * An exam as a person names it: {@code DIR[#SeriesUID][=LABEL]}.
 *
 * @param folder folder or file with the exam's series
 * @param seriesUid the series to measure; empty to have it proposed
 * @param label the exam's column label; empty to have it made from the dates
 * @param date day of the exam, where it is known from elsewhere than its files
 */
public record ExamArgument(Path folder, Optional<String> seriesUid, Optional<String> label, Optional<LocalDate> date) {

    public ExamArgument {
        Objects.requireNonNull(folder, "folder");
        Objects.requireNonNull(seriesUid, "seriesUid");
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(date, "date");
    }

    /**
     * Reads the argument; a file or folder that has {@code #} or {@code =} in its own name is taken as it is.
     *
     * @throws UseCaseException if it names no folder
     */
    public static ExamArgument parse(String text) throws UseCaseException {
        String rest = text;
        Optional<String> label = Optional.empty();
        Optional<String> series = Optional.empty();
        int equals = text.lastIndexOf('=');
        boolean endsWithSeries = text.lastIndexOf('#') > equals && exists(text.substring(0, text.lastIndexOf('#')));
        if (equals > 0 && !exists(text) && !endsWithSeries) {
            label = Optional.of(text.substring(equals + 1)).filter(l -> !l.isBlank());
            rest = text.substring(0, equals);
        }
        int hash = rest.lastIndexOf('#');
        if (hash > 0 && !exists(rest)) {
            series = Optional.of(rest.substring(hash + 1)).filter(s -> !s.isBlank());
            rest = rest.substring(0, hash);
        }
        if (rest.isBlank()) {
            throw new UseCaseException("exam '" + text + "': expected DIR[#SeriesUID][=LABEL], found no folder");
        }
        try {
            return new ExamArgument(Path.of(rest), series, label, Optional.empty());
        } catch (InvalidPathException e) {
            throw new UseCaseException("exam '" + text + "': not a path on this system: " + e.getReason(), e);
        }
    }

    /** A label may hold what no path of this system can. */
    private static boolean exists(String text) {
        try {
            return Files.exists(Path.of(text));
        } catch (InvalidPathException e) {
            return false;
        }
    }
}
