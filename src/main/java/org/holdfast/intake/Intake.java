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
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/** Looks through files and folders and says which series and stacks they hold. Stateless. */
public final class Intake {

    private static final String DIRECTORY_CLASS = "1.2.840.10008.1.3.10";

    /** One file after its header was looked at: exactly one of the three is there. */
    private record Outcome(ImageHeader header, IntakeReport.Unreadable unreadable, Finding skipped) {}

    private Intake() {}

    /**
     * Reads the header of every file, whatever its name, folders with all that is in them. A file that cannot be read is
     * listed and stops nothing. The result does not depend on the order or the names of the files.
     *
     * @param paths files and folders
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static IntakeReport scan(List<Path> paths, Progress progress) {
        List<IntakeReport.Unreadable> unreadable = new ArrayList<>();
        List<Path> files = filesIn(paths, unreadable);
        AtomicInteger done = new AtomicInteger();
        List<Outcome> outcomes = files.parallelStream()
                .map(file -> {
                    progress.stopIfCancelled();
                    Outcome outcome = look(file);
                    progress.report((double) done.incrementAndGet() / files.size(), "reading headers");
                    return outcome;
                })
                .toList();
        List<Finding> findings = new ArrayList<>();
        Map<String, List<ImageHeader>> bySeries = new TreeMap<>();
        for (Outcome outcome : outcomes) {
            if (outcome.unreadable != null) {
                unreadable.add(outcome.unreadable);
            } else if (outcome.skipped != null) {
                findings.add(outcome.skipped);
            } else {
                bySeries.computeIfAbsent(seriesKey(outcome.header), key -> new ArrayList<>())
                        .add(outcome.header);
            }
        }
        List<Series> series = new ArrayList<>();
        for (List<ImageHeader> headers : bySeries.values()) {
            progress.stopIfCancelled();
            series.add(SeriesAssembler.assemble(headers));
        }
        series.sort(Comparator.comparing(Series::studyInstanceUid)
                .thenComparing(s -> s.files().get(0).identity().seriesNumber())
                .thenComparing(Series::seriesInstanceUid));
        return new IntakeReport(series, unreadable, FindingSummary.of(findings));
    }

    /** Files without a series stand alone, as nothing says that they belong together. */
    private static String seriesKey(ImageHeader header) {
        String uid = header.identity().seriesInstanceUid();
        return uid.isEmpty() ? "no series: " + header.path() : uid;
    }

    private static Outcome look(Path file) {
        try {
            DicomFile read = DicomReader.read(file);
            boolean directory = read.dataSet().contains(Tag.DIRECTORY_RECORD_SEQUENCE)
                    || read.meta()
                            .string(Tag.MEDIA_STORAGE_SOP_CLASS_UID)
                            .orElse("")
                            .equals(DIRECTORY_CLASS);
            if (directory) {
                return new Outcome(
                        null,
                        null,
                        Finding.info(
                                "DIRECTORY_IGNORED",
                                "a DICOM directory is a hint only; the files themselves were read",
                                file.toString()));
            }
            return new Outcome(ImageHeader.of(read), null, null);
        } catch (DicomReadException e) {
            return new Outcome(null, new IntakeReport.Unreadable(file, e.reason()), null);
        }
    }

    /**
     * All files in files and folders, each once, sorted by path; links are followed.
     *
     * @param unreadable receives what cannot be looked into
     */
    public static List<Path> filesIn(List<Path> paths, List<IntakeReport.Unreadable> unreadable) {
        Set<Path> found = new LinkedHashSet<>();
        Set<Path> real = new LinkedHashSet<>();
        for (Path path : paths) {
            try {
                Files.walkFileTree(
                        path, EnumSet.of(FileVisitOption.FOLLOW_LINKS), Integer.MAX_VALUE, new SimpleFileVisitor<>() {
                            @Override
                            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
                                    throws IOException {
                                if (real.add(file.toRealPath())) {
                                    found.add(file);
                                }
                                return FileVisitResult.CONTINUE;
                            }

                            @Override
                            public FileVisitResult visitFileFailed(Path file, IOException e) {
                                unreadable.add(new IntakeReport.Unreadable(file, FileFailure.words(e)));
                                return FileVisitResult.CONTINUE;
                            }
                        });
            } catch (IOException e) {
                unreadable.add(new IntakeReport.Unreadable(path, FileFailure.words(e)));
            }
        }
        return found.stream().sorted().toList();
    }
}
