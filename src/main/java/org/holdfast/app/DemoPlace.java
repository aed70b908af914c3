package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.holdfast.progress.Progress;

/** Use case: the demo subject in a place of its own, made the first time it is asked for. */
public final class DemoPlace {

    private static final int MOST_TRIES = 100;

    private DemoPlace() {}

    /** Where the demo lies unless told otherwise: {@code Holdfast/demo-subject} in the person's home. */
    public static Path usual() {
        return Path.of(System.getProperty("user.home"), "Holdfast", "demo-subject");
    }

    /**
     * Makes the demo, or finds it made. Where something else lies in the folder the next free name is taken; what was half
     * made when the person stopped is removed.
     *
     * @param wished where it should lie
     * @return where it lies
     * @throws IOException if it cannot be written
     * @throws CancellationException if cancelled
     */
    public static Path ready(Path wished, DemoSubject.Size size, Progress progress) throws IOException {
        for (int n = 1; n <= MOST_TRIES; n++) {
            Path folder = n == 1 ? wished : wished.resolveSibling(wished.getFileName() + "-" + n);
            if (Files.exists(folder.resolve(SubjectFolder.DOCUMENT))) {
                return folder;
            }
            if (!Files.exists(folder) || isEmpty(folder)) {
                return made(folder, size, progress);
            }
        }
        throw new IOException(wished + ": " + MOST_TRIES + " folders of that name are taken by something else");
    }

    private static Path made(Path folder, DemoSubject.Size size, Progress progress) throws IOException {
        boolean done = false;
        try {
            DemoSubject.write(folder, size, progress);
            done = true;
            return folder;
        } finally {
            if (!done) {
                remove(folder);
            }
        }
    }

    private static boolean isEmpty(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return false;
        }
        try (Stream<Path> content = Files.list(folder)) {
            return content.findAny().isEmpty();
        }
    }

    private static void remove(Path folder) throws IOException {
        if (!Files.exists(folder)) {
            return;
        }
        List<Path> deepestFirst;
        try (Stream<Path> all = Files.walk(folder)) {
            deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path path : deepestFirst) {
            Files.deleteIfExists(path);
        }
    }
}
