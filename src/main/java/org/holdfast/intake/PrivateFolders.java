package org.holdfast.intake;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;

/**
 * Owner of the folders that archives are unpacked to: readable by this user only, and removed when the program ends.
 * Thread-safe. A program that is killed leaves them in the system's folder for temporary files.
 */
final class PrivateFolders {

    private static final List<Path> OPEN = new ArrayList<>();

    static {
        Runtime.getRuntime().addShutdownHook(new Thread(PrivateFolders::removeAll, "remove unpacked archives"));
    }

    private PrivateFolders() {}

    static Path create() throws IOException {
        // On systems with POSIX permissions such a folder is the user's alone.
        Path folder = Files.createTempDirectory("holdfast-");
        synchronized (OPEN) {
            OPEN.add(folder);
        }
        return folder;
    }

    /** Removes a folder before the program ends. */
    static void remove(Path folder) {
        synchronized (OPEN) {
            OPEN.remove(folder);
        }
        delete(folder);
    }

    private static void removeAll() {
        synchronized (OPEN) {
            OPEN.forEach(PrivateFolders::delete);
            OPEN.clear();
        }
    }

    private static void delete(Path folder) {
        try {
            Files.walkFileTree(folder, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
                    Files.delete(file);
                    return FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult postVisitDirectory(Path dir, IOException e) throws IOException {
                    Files.delete(dir);
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (IOException e) {
            // A file that is held open elsewhere stays; the system clears its temporary files sooner or later.
            System.getLogger(PrivateFolders.class.getName())
                    .log(System.Logger.Level.WARNING, "not removed: " + folder, e);
        }
    }
}
