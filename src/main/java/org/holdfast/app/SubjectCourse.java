package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.progress.Progress;

/**
 * Use case: the contact course of a whole subject folder, with its files written into it. A simulated subject's true
 * poses and truth are used and said to be such.
 *
 * @param subject the subject
 * @param report what was measured
 * @param truth what is true, of a simulation
 * @param files files written
 */
public record SubjectCourse(SubjectFolder subject, ContactReport report, SimulationTruth truth, List<Path> files) {

    private static final double MAKING_SHARE = 0.5;

    public SubjectCourse {
        files = List.copyOf(files);
    }

    /**
     * Measures a subject folder with given settings.
     *
     * @throws UseCaseException if the folder is not a subject, or no exam can be read
     * @throws java.util.concurrent.CancellationException if cancelled; nothing is written then
     */
    public static SubjectCourse measure(Path folder, MeasurementSettings settings, Progress progress)
            throws UseCaseException {
        return measure(ReviewSubject.open(folder).with(settings), progress);
    }

    /**
     * Measures a subject by its own settings; its files are written when all is measured.
     *
     * @throws UseCaseException if no exam can be read, or a file cannot be written
     * @throws java.util.concurrent.CancellationException if cancelled; nothing is written then
     */
    public static SubjectCourse measure(ReviewSubject subject, Progress progress) throws UseCaseException {
        List<ExamArgument> exams =
                subject.exams().stream().map(ReviewExam::argument).toList();
        ContactReport report = new Measurement(
                        subject.construct(), subject.settings(), subject.poses(), Measurement.Scope.ALL, progress)
                .measure(exams)
                .with(subject.findings());
        progress.stopIfCancelled();
        List<Path> files =
                new CourseFiles(report, subject.truth()).write(subject.folder().folder());
        return new SubjectCourse(subject.folder(), report, subject.truth(), files);
    }

    /**
     * Makes the demo subject if the folder holds none yet, then measures it by the folder's own settings.
     *
     * @param folder empty, not existing, or a demo subject made before
     * @throws IOException if the demo subject cannot be written
     */
    public static SubjectCourse demo(Path folder, DemoSubject.Size size, Progress progress)
            throws UseCaseException, IOException {
        boolean made = Files.exists(folder.resolve(SubjectFolder.DOCUMENT));
        if (!made) {
            DemoSubject.write(folder, size, progress.part(0, MAKING_SHARE));
        }
        return measure(ReviewSubject.open(folder), made ? progress : progress.part(MAKING_SHARE, 1));
    }
}
