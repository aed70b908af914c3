package org.holdfast.intake;

import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One exam as it is named on the command line: {@code DIR[#SeriesUID][=LABEL]}. Immutable.
 *
 * @param path folder or file
 * @param seriesInstanceUid the series meant; empty to have one proposed
 * @param label the exam's label; empty to have it made from its date
 */
public record ExamArgument(Path path, Optional<String> seriesInstanceUid, Optional<String> label) {

    /** A UID behind the last #, and behind it or alone a label behind an = that no folder name follows. */
    private static final Pattern FORM =
            Pattern.compile("(?<path>.+?)(?:#(?<uid>[0-9.]{1,64}))?(?:=(?<label>[^=/\\\\]*))?");

    public ExamArgument {
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(seriesInstanceUid, "seriesInstanceUid");
        Objects.requireNonNull(label, "label");
    }

    /**
     * Takes the argument apart.
     *
     * @throws IllegalArgumentException if it names no folder
     */
    public static ExamArgument parse(String argument) {
        Matcher m = FORM.matcher(argument);
        if (!m.matches()) {
            throw new IllegalArgumentException("an exam is DIR[#SeriesUID][=LABEL], got \"" + argument + "\"");
        }
        return new ExamArgument(
                Path.of(m.group("path")),
                Optional.ofNullable(m.group("uid")),
                Optional.ofNullable(m.group("label")).filter(label -> !label.isBlank()));
    }
}
