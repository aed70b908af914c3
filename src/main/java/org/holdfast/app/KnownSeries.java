package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.FileFailure;

/** The series that a subject has already. Stateless. */
final class KnownSeries {

    /** A folder with a file for each slice is one series: more of its files are not looked at than this. */
    private static final int FILES_LOOKED_AT = 8;

    private KnownSeries() {}

    /**
     * UIDs of the series, as the document says; for exams of which it names none, as the first files of their folders say.
     *
     * @throws UseCaseException if a folder cannot be looked into
     */
    static Set<String> of(SubjectFolder subject) throws UseCaseException {
        Set<String> uids = new HashSet<>();
        for (SubjectFolder.Exam exam : subject.exams()) {
            exam.series().forEach(series -> uids.add(series.seriesUid()));
            if (exam.series().isEmpty() && Files.isDirectory(exam.folder())) {
                uids.addAll(inFolder(exam.folder()));
            }
        }
        return uids;
    }

    private static Set<String> inFolder(Path folder) throws UseCaseException {
        Set<String> uids = new HashSet<>();
        try (Stream<Path> all = Files.walk(folder)) {
            List<Path> folders = all.filter(Files::isDirectory).toList();
            for (Path each : folders) {
                uids.addAll(ofFirstFiles(each));
            }
        } catch (IOException e) {
            throw new UseCaseException(folder + ": cannot be looked into: " + FileFailure.words(e), e);
        }
        return uids;
    }

    private static Set<String> ofFirstFiles(Path folder) throws IOException {
        Set<String> uids = new HashSet<>();
        List<Path> files;
        try (Stream<Path> all = Files.list(folder)) {
            files = all.filter(Files::isRegularFile)
                    .sorted()
                    .limit(FILES_LOOKED_AT)
                    .toList();
        }
        for (Path file : files) {
            seriesUid(file, uids);
        }
        return uids;
    }

    /** A file that is none of an image names no series. */
    private static void seriesUid(Path file, Set<String> uids) {
        try {
            DicomReader.read(file).dataSet().string(Tag.SERIES_INSTANCE_UID).ifPresent(uids::add);
        } catch (DicomReadException e) {
            // Whatever else lies in the folder cannot be taken in twice.
            return;
        }
    }
}
