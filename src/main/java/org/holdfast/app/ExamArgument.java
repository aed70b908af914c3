package org.holdfast.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;

/**
 * An exam as a person names it: {@code DIR[#SeriesUID][=LABEL]}.
 *
 * @param folder folder or file with the exam's series
 * @param seriesUid the series to measure; empty to have it proposed
 * @param label the exam's column label; empty to have it made from the dates
 */
public record ExamArgument(Path folder, Optional<String> seriesUid, Optional<String> label) {

    public ExamArgument {
        Objects.requireNonNull(folder, "folder");
        Objects.requireNonNull(seriesUid, "seriesUid");
        Objects.requireNonNull(label, "label");
    }

    /** Reads the argument; a file or folder that has {@code #} or {@code =} in its own name is taken as it is. */
    public static ExamArgument parse(String text) {
        String rest = text;
        Optional<String> label = Optional.empty();
        Optional<String> series = Optional.empty();
        int equals = text.lastIndexOf('=');
        if (equals > 0 && !Files.exists(Path.of(text))) {
            label = Optional.of(text.substring(equals + 1)).filter(l -> !l.isBlank());
            rest = text.substring(0, equals);
        }
        int hash = rest.lastIndexOf('#');
        if (hash > 0 && !Files.exists(Path.of(rest))) {
            series = Optional.of(rest.substring(hash + 1)).filter(s -> !s.isBlank());
            rest = rest.substring(0, hash);
        }
        return new ExamArgument(Path.of(rest), series, label);
    }
}
