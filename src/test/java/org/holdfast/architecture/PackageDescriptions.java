package org.holdfast.architecture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Looks for packages whose purpose nobody wrote down. */
final class PackageDescriptions {

    private PackageDescriptions() {}

    /** Folders under the source root that hold Java files but no package-info, sorted. */
    static List<Path> missingUnder(Path sourceRoot) throws IOException {
        try (Stream<Path> files = Files.walk(sourceRoot)) {
            return files.filter(file -> file.toString().endsWith(".java"))
                    .map(Path::getParent)
                    .distinct()
                    .filter(folder -> !Files.exists(folder.resolve("package-info.java")))
                    .sorted()
                    .toList();
        }
    }
}
