package org.holdfast.intake;

import java.nio.file.Path;
import java.util.Objects;

/**
 * A file to be looked at. Immutable.
 *
 * @param path where it can be read
 * @param name how a person knows it: its path, or {@code archive.zip!entry} for one out of an archive
 */
record SourceFile(Path path, String name) {

    SourceFile {
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(name, "name");
    }

    static SourceFile of(Path path) {
        return new SourceFile(path, path.toString());
    }
}
