package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Files that take the place of earlier ones when all of them are written, not before: they are written into a folder of
 * their own beside their places and moved at the end. Closing removes what was not moved.
 */
final class NewFiles implements AutoCloseable {

    private final Path folder;
    private final Path own;
    private final Set<String> names = new LinkedHashSet<>();

    /**
     * @param folder the folder that the files are for
     * @throws IOException if nothing can be written into it
     */
    NewFiles(Path folder) throws IOException {
        this.folder = folder;
        this.own = Files.createTempDirectory(folder, ".new-");
    }

    /**
     * Where to write a file for now.
     *
     * @param name its name in the folder, with slashes
     */
    Path path(String name) throws IOException {
        names.add(name);
        Path path = own.resolve(name);
        Files.createDirectories(path.getParent());
        return path;
    }

    /**
     * Moves all files to their places, over what is there.
     *
     * @param last name of the file that a reader looks for: it is moved when all others are in their places
     * @return the places, in the order in which the files were named
     */
    List<Path> move(String last) throws IOException {
        for (String name : names) {
            if (!name.equals(last)) {
                move(own.resolve(name), folder.resolve(name));
            }
        }
        move(own.resolve(last), folder.resolve(last));
        return names.stream().map(folder::resolve).toList();
    }

    private static void move(Path from, Path to) throws IOException {
        Files.createDirectories(to.getParent());
        Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }

    @Override
    public void close() throws IOException {
        List<Path> deepestFirst;
        try (Stream<Path> all = Files.walk(own)) {
            deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path path : deepestFirst) {
            Files.deleteIfExists(path);
        }
    }
}
