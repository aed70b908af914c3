package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Uid;
import org.holdfast.exchange.SecondaryCapture;
import org.holdfast.figure.Drawing;
import org.holdfast.figure.PngWriter;
import org.holdfast.finding.FileFailure;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.progress.Progress;

/**
 * Use case: the figures of a subject's contact course as DICOM secondary captures, each in the study of its exam, so that
 * an archive can keep them beside the scans. Stateless.
 */
public final class CaptureExport {

    private static final double PIXELS_PER_UNIT = 2;
    private static final double MEASURING_SHARE = 0.9;

    /** High, so that the series stands after those of the scanner. */
    private static final int SERIES_NUMBER = 9001;

    private static final String DERIVATION =
            "Figure of apparent interface contact by threshold, measured on CT of this patient; no image of the patient.";

    private final ContactReport report;
    private final Map<String, DataSet> studyOf;
    private final Map<String, String> seriesOf = new HashMap<>();
    private final Map<String, Integer> captures = new HashMap<>();
    private final LocalDateTime made;

    private CaptureExport(ContactReport report, Map<String, DataSet> studyOf, LocalDateTime made) {
        this.report = report;
        this.studyOf = studyOf;
        this.made = made;
    }

    /**
     * Measures a subject and writes its face-on maps and, in the study of the last exam, its course.
     *
     * @param folder the subject's folder
     * @param out folder to write to; made if it is missing
     * @param clock tells when the captures are made
     * @return the files written
     * @throws UseCaseException if nothing can be measured, or a file cannot be written
     * @throws java.util.concurrent.CancellationException if cancelled; nothing is written then
     */
    public static List<Path> write(Path folder, Path out, Clock clock, Progress progress) throws UseCaseException {
        ReviewSubject subject = ReviewSubject.open(folder);
        List<ExamArgument> exams =
                subject.exams().stream().map(ReviewExam::argument).toList();
        ContactReport report = new Measurement(
                        subject.construct(),
                        subject.settings(),
                        subject.poses(),
                        Measurement.Scope.CONTACT,
                        progress.part(0, MEASURING_SHARE))
                .measure(exams);
        Map<String, DataSet> studies = studies(subject, report, progress.part(MEASURING_SHARE, 1));
        try {
            Files.createDirectories(out);
            return new CaptureExport(report, studies, LocalDateTime.now(clock)).write(out);
        } catch (IOException e) {
            throw new UseCaseException(out + ": captures cannot be written: " + FileFailure.words(e), e);
        }
    }

    /** A header of each exam's study, by the exam's label. */
    private static Map<String, DataSet> studies(ReviewSubject subject, ContactReport report, Progress progress)
            throws UseCaseException {
        Map<String, DataSet> studies = new HashMap<>();
        for (ReviewExam exam : subject.exams()) {
            if (report.exam(exam.label()).isEmpty()) {
                continue;
            }
            Path image =
                    Opened.open(exam.argument(), subject.construct(), progress).firstFile();
            try {
                studies.put(exam.label(), DicomReader.read(image).dataSet());
            } catch (DicomReadException e) {
                throw new UseCaseException(exam.folder() + ": " + e.getMessage(), e);
            }
        }
        return studies;
    }

    private List<Path> write(Path out) throws IOException {
        try (NewFiles files = new NewFiles(out)) {
            List<String> names = new ArrayList<>();
            for (ExamResult exam : report.exams()) {
                for (InterfaceExam part : exam.parts()) {
                    if (part.contact().isPresent()) {
                        names.add(write(files, exam.label(), FaceMapFile.draw(report, exam, part)));
                    }
                }
            }
            Optional<Drawing> chart = new CourseFiles(report, SimulationTruth.NONE).chart();
            if (chart.isPresent()) {
                String last = report.exams().get(report.exams().size() - 1).label();
                names.add(write(files, last, chart.get()));
            }
            return names.isEmpty() ? List.of() : files.move(names.get(names.size() - 1));
        }
    }

    private String write(NewFiles files, String label, Drawing drawing) throws IOException {
        int number = captures.merge(label, 1, Integer::sum);
        String name = "capture-" + (seriesOf.size() + (seriesOf.containsKey(label) ? 0 : 1)) + "-" + number + ".dcm";
        String series = seriesOf.computeIfAbsent(label, key -> Uid.random());
        new SecondaryCapture(series, "Holdfast interface contact", SERIES_NUMBER, number, DERIVATION)
                .write(
                        PngWriter.picture(drawing, PIXELS_PER_UNIT),
                        studyOf.get(label),
                        Uid.random(),
                        Software.running().toString(),
                        made,
                        files.path(name));
        return name;
    }
}
