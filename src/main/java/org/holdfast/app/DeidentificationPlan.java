package org.holdfast.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.intake.Deidentifier;
import org.holdfast.progress.Progress;

/**
 * Which file of a subject gets which name. Names are numbers of study, series and file; the order behind them is that of
 * the new UIDs, which follow from a secret, and of InstanceNumber: it tells nothing. Immutable.
 *
 * @param files what is to be written, with its place under the new folder
 * @param directories media directories, which are not needed
 * @param failures what could not be read
 * @param patients different PatientIDs
 */
record DeidentificationPlan(List<Place> files, int directories, List<Deidentification.Failure> failures, int patients) {

    private static final String DIRECTORY_CLASS = "1.2.840.10008.1.3.10";

    /** One file and the name that its copy gets. */
    record Place(Path from, String name) {}

    /** One file after its header was looked at: it has keys, a failure, or is a directory. */
    private record Looked(Path path, Keys keys, Deidentification.Failure failure) {}

    private record Keys(String study, String series, int instance, String uid, String patient) {}

    static DeidentificationPlan of(List<Path> files, Deidentifier deidentifier, Progress progress) {
        AtomicInteger done = new AtomicInteger();
        List<Looked> looked = files.parallelStream()
                .map(file -> {
                    progress.stopIfCancelled();
                    Looked one = look(file, deidentifier);
                    progress.report((double) done.incrementAndGet() / files.size(), "reading headers");
                    return one;
                })
                .toList();
        List<Looked> images =
                new ArrayList<>(looked.stream().filter(one -> one.keys != null).toList());
        images.sort(Comparator.comparing((Looked one) -> one.keys.study)
                .thenComparing(one -> one.keys.series)
                .thenComparingInt(one -> one.keys.instance)
                .thenComparing(one -> one.keys.uid)
                .thenComparing(Looked::path));
        List<Deidentification.Failure> failures = looked.stream()
                .filter(one -> one.failure != null)
                .map(Looked::failure)
                .toList();
        int patients =
                (int) images.stream().map(one -> one.keys.patient).distinct().count();
        return new DeidentificationPlan(
                places(images), looked.size() - images.size() - failures.size(), failures, patients);
    }

    private static List<Place> places(List<Looked> images) {
        List<Place> out = new ArrayList<>();
        Map<String, Integer> studies = new HashMap<>();
        Map<String, Map<String, Integer>> series = new HashMap<>();
        Map<String, Integer> files = new HashMap<>();
        for (Looked image : images) {
            String study = image.keys.study;
            Map<String, Integer> inStudy = series.computeIfAbsent(study, uid -> new HashMap<>());
            String folder = String.format(
                    Locale.ROOT, "study-%02d/series-%03d", number(studies, study), number(inStudy, image.keys.series));
            int number = files.merge(folder, 1, Integer::sum);
            out.add(new Place(image.path, String.format(Locale.ROOT, "%s/%05d.dcm", folder, number)));
        }
        return out;
    }

    private static int number(Map<String, Integer> numbers, String key) {
        numbers.putIfAbsent(key, numbers.size() + 1);
        return numbers.get(key);
    }

    private static Looked look(Path file, Deidentifier deidentifier) {
        try {
            DicomFile read = DicomReader.read(file);
            return new Looked(file, isDirectory(read) ? null : keys(read.dataSet(), deidentifier), null);
        } catch (DicomReadException e) {
            return new Looked(file, null, new Deidentification.Failure(file, e.reason()));
        }
    }

    private static Keys keys(DataSet data, Deidentifier deidentifier) {
        return new Keys(
                deidentifier.uid(data.string(Tag.STUDY_INSTANCE_UID).orElse("")),
                deidentifier.uid(data.string(Tag.SERIES_INSTANCE_UID).orElse("")),
                data.integer(Tag.INSTANCE_NUMBER).orElse(0),
                deidentifier.uid(data.string(Tag.SOP_INSTANCE_UID).orElse("")),
                data.string(Tag.PATIENT_ID).orElse(""));
    }

    private static boolean isDirectory(DicomFile file) {
        return file.dataSet().contains(Tag.DIRECTORY_RECORD_SEQUENCE)
                || file.meta()
                        .string(Tag.MEDIA_STORAGE_SOP_CLASS_UID)
                        .orElse("")
                        .equals(DIRECTORY_CLASS);
    }
}
