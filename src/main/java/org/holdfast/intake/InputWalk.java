package org.holdfast.intake;

import java.io.IOException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/**
 * Finds the files under the paths that a person gave: folders with all that is in them, single files, zip archives. Each
 * file once, by whatever ways it can be reached; links are followed, circles of links are said.
 */
final class InputWalk {

    private static final String DIRECTORY_NAME = "DICOMDIR";

    private static final String ARCHIVE_ENDING = ".zip";

    private final Progress progress;
    private final List<SourceFile> files = new ArrayList<>();
    private final List<Path> archives = new ArrayList<>();
    private final List<IntakeReport.Unreadable> unreadable = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();
    private final Set<Object> seen = new HashSet<>();
    private int clutter;
    private Path given = Path.of("");

    private InputWalk(Progress progress) {
        this.progress = progress;
    }

    /**
     * @throws CancellationException if the person stopped it
     */
    static InputFiles find(List<Path> paths, ZipLimits limits, Progress progress) {
        InputWalk walk = new InputWalk(progress.part(0, 0.1));
        paths.forEach(walk::visit);
        walk.unpack(limits, progress.part(0.1, 1));
        if (walk.clutter > 0) {
            walk.findings.add(Finding.info(
                    "CLUTTER_LEFT_ASIDE",
                    "files that an operating system left there for itself, left aside: " + walk.clutter,
                    ""));
        }
        walk.files.sort(Comparator.comparing(SourceFile::name));
        return new InputFiles(walk.files, walk.unreadable, walk.findings);
    }

    private void visit(Path path) {
        given = path;
        // A medium's directory stands for the medium: the files are what counts.
        boolean directory =
                Files.isRegularFile(given) && given.getFileName().toString().equalsIgnoreCase(DIRECTORY_NAME);
        Path start = directory ? given.toAbsolutePath().getParent() : given;
        int before = seen.size();
        int failed = unreadable.size();
        try {
            Files.walkFileTree(start, EnumSet.of(FileVisitOption.FOLLOW_LINKS), Integer.MAX_VALUE, new Visitor());
        } catch (IOException e) {
            unreadable.add(new IntakeReport.Unreadable(given.toString(), FileFailure.words(e)));
        }
        boolean nothing = seen.size() == before && unreadable.size() == failed && clutter == 0;
        if (nothing && Files.isDirectory(start) && isEmpty(start)) {
            findings.add(Finding.info("EMPTY_FOLDER", "there is no file in this folder", given.toString()));
        }
    }

    private final class Visitor extends SimpleFileVisitor<Path> {

        @Override
        public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            progress.stopIfCancelled();
            if (folder.getFileName() != null
                    && Clutter.isClutterFolder(folder.getFileName().toString())) {
                clutter++;
                return FileVisitResult.SKIP_SUBTREE;
            }
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
            progress.stopIfCancelled();
            if (!attributes.isRegularFile()) {
                // Opening a pipe would wait for ever.
                unreadable.add(new IntakeReport.Unreadable(file.toString(), "it is not a regular file"));
            } else if (Clutter.isClutter(file.getFileName().toString())) {
                clutter++;
            } else if (seen.add(keyOf(file, attributes))) {
                take(file);
            }
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFileFailed(Path file, IOException e) {
            unreadable.add(new IntakeReport.Unreadable(file.toString(), FileFailure.words(e)));
            return FileVisitResult.CONTINUE;
        }
    }

    private void take(Path file) throws IOException {
        boolean named = file.toString().toLowerCase(Locale.ROOT).endsWith(ARCHIVE_ENDING) || file.equals(given);
        if (named && ZipUnpacker.isArchive(file)) {
            archives.add(file);
        } else {
            files.add(SourceFile.of(file));
            if (files.size() % 500 == 0) {
                progress.report(0, "looking for files: " + files.size());
            }
        }
    }

    private void unpack(ZipLimits limits, Progress whole) {
        int done = 0;
        for (Path archive : archives) {
            Progress part = whole.part((double) done / archives.size(), (done + 1.0) / archives.size());
            done++;
            try {
                InputFiles inside = UnpackedArchives.open(archive, limits, part);
                files.addAll(inside.files());
                unreadable.addAll(inside.unreadable());
                findings.addAll(inside.findings());
            } catch (IOException e) {
                unreadable.add(new IntakeReport.Unreadable(archive.toString(), FileFailure.words(e)));
            }
        }
    }

    /** What makes a file itself, however it is reached. */
    private static Object keyOf(Path file, BasicFileAttributes attributes) throws IOException {
        Object key = attributes.fileKey();
        return key == null ? file.toRealPath() : key;
    }

    private static boolean isEmpty(Path folder) {
        try (var all = Files.list(folder)) {
            return all.findAny().isEmpty();
        } catch (IOException e) {
            return false;
        }
    }
}
