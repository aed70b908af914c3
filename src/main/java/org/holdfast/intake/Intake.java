package org.holdfast.intake;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/** Looks through files and folders and says which series and stacks they hold. Stateless. */
public final class Intake {

    /** Shares of the progress: finding files, reading their headers; the rest is putting them together. */
    private static final double FOUND = 0.1;

    private static final double READ = 0.9;

    /** One file after its header was looked at: exactly one of the three is there. */
    private record Outcome(ImageHeader header, IntakeReport.Unreadable unreadable, MediumDirectory directory) {}

    private Intake() {}

    /**
     * Reads the header of every file, whatever its name: folders with all that is in them, single files, zip archives, whose
     * files are unpacked into a private folder that is removed when the program ends. A file that cannot be read is listed
     * and stops nothing. The result does not depend on the order or the names of the files.
     *
     * @param paths files, folders and archives
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static IntakeReport scan(List<Path> paths, Progress progress) {
        return scan(paths, ZipLimits.DEFAULT, progress);
    }

    static IntakeReport scan(List<Path> paths, ZipLimits limits, Progress progress) {
        InputFiles input = InputWalk.find(paths, limits, progress.part(0, FOUND));
        List<Outcome> outcomes = outcomes(input.files(), progress.part(FOUND, READ));
        List<IntakeReport.Unreadable> unreadable = new ArrayList<>(input.unreadable());
        List<ImageHeader> headers = new ArrayList<>();
        List<MediumDirectory> directories = new ArrayList<>();
        for (Outcome outcome : outcomes) {
            if (outcome.unreadable != null) {
                unreadable.add(outcome.unreadable);
            } else if (outcome.directory != null) {
                directories.add(outcome.directory);
            } else {
                headers.add(outcome.header);
            }
        }
        List<Series> series = series(headers, progress);
        List<Finding> findings = new ArrayList<>(input.findings());
        List<String> everything = input.files().stream().map(SourceFile::name).toList();
        List<String> images = headers.stream().map(ImageHeader::name).toList();
        directories.forEach(directory -> findings.addAll(directory.compared(everything, images)));
        findings.addAll(IdentityFaults.of(series, progress.part(READ, 1)));
        return new IntakeReport(series, unreadable, FindingSummary.of(findings));
    }

    private static List<Outcome> outcomes(List<SourceFile> files, Progress progress) {
        AtomicInteger done = new AtomicInteger();
        List<Outcome> outcomes = files.parallelStream()
                .map(file -> {
                    progress.stopIfCancelled();
                    Outcome outcome = look(file, true);
                    progress.report((double) done.incrementAndGet() / files.size(), "reading headers");
                    return outcome;
                })
                .collect(Collectors.toCollection(ArrayList::new));
        // Beside other large files there may be too little memory even for a good one: alone it gets all there is.
        for (int f = 0; f < outcomes.size(); f++) {
            if (outcomes.get(f) == null) {
                progress.stopIfCancelled();
                outcomes.set(f, look(files.get(f), false));
            }
        }
        return outcomes;
    }

    private static List<Series> series(List<ImageHeader> headers, Progress progress) {
        List<Series> series = new ArrayList<>();
        for (SeriesFiles files : SeriesFiles.group(headers)) {
            progress.stopIfCancelled();
            series.add(SeriesAssembler.assemble(files.headers(), files.findings()));
        }
        series.sort(Comparator.comparing(Series::studyInstanceUid)
                .thenComparing(s -> s.files().get(0).identity().seriesNumber())
                .thenComparing(Series::seriesInstanceUid)
                .thenComparing(s -> s.files().get(0).identity().patientId())
                .thenComparing(s -> s.files().get(0).identity().sopInstanceUid()));
        return series;
    }

    /** Looks at a file; null if memory ran out beside other files and it is to be looked at again. */
    private static Outcome look(SourceFile file, boolean besideOthers) {
        try {
            DicomFile read = DicomReader.read(file.path());
            return MediumDirectory.isDirectory(read)
                    ? new Outcome(null, null, MediumDirectory.of(read, file.name()))
                    : new Outcome(ImageHeader.of(read, file.name()), null, null);
        } catch (DicomReadException e) {
            return besideOthers && e.isOutOfMemory()
                    ? null
                    : new Outcome(null, new IntakeReport.Unreadable(file.name(), e.reason()), null);
        } catch (OutOfMemoryError e) {
            return besideOthers
                    ? null
                    : new Outcome(null, new IntakeReport.Unreadable(file.name(), "too large for the memory"), null);
        }
    }

    /**
     * All files in files, folders and archives, each once, sorted by name; what {@link #scan} would look at.
     *
     * @param unreadable receives what cannot be looked into
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static List<Path> filesIn(List<Path> paths, List<IntakeReport.Unreadable> unreadable, Progress progress) {
        InputFiles input = InputWalk.find(paths, ZipLimits.DEFAULT, progress);
        unreadable.addAll(input.unreadable());
        return input.files().stream().map(SourceFile::path).toList();
    }
}
