package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
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
     * Measures a subject folder.
     *
     * @throws UseCaseException if the folder is not a subject, or no exam can be read
     */
    public static SubjectCourse measure(Path folder, MeasurementSettings settings, Progress progress)
            throws UseCaseException {
        SubjectFolder subject = SubjectFolder.read(folder);
        Construct construct = ContactInputs.construct(subject.construct());
        Path truthFile = folder.resolve(SimulationTruth.DOCUMENT);
        PoseFile poses = Files.exists(truthFile) ? PoseFile.read(truthFile) : PoseFile.NONE;
        List<ExamArgument> exams = subject.exams().stream()
                .map(exam -> new ExamArgument(exam.folder(), Optional.empty(), Optional.of(exam.label()), exam.date()))
                .toList();
        ContactReport report = new ContactMeasurement(construct, settings, poses, progress)
                .measure(exams)
                .with(surgeryDate(subject, construct));
        SimulationTruth truth = SimulationTruth.read(folder);
        List<Path> files = new CourseFiles(report, truth).write(folder);
        return new SubjectCourse(subject, report, truth, files);
    }

    /** Days are counted from the operation that the construct names. */
    private static List<Finding> surgeryDate(SubjectFolder subject, Construct construct) {
        return subject.surgeryDate().equals(construct.operationDate())
                ? List.of()
                : List.of(Finding.warning(
                        "SURGERY_DATE_DIFFERS",
                        "The subject's document says that the operation was on " + subject.surgeryDate()
                                + ", the construct says " + construct.operationDate()
                                + "; days are counted from the latter.",
                        subject.folder().resolve(SubjectFolder.DOCUMENT).toString()));
    }

    /**
     * Makes the demo subject if the folder holds none yet, then measures it.
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
        return measure(folder, MeasurementSettings.withDefaults(), made ? progress : progress.part(MAKING_SHARE, 1));
    }
}
