package org.holdfast.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.measure.MeasurementSettings;

/**
 * A subject's documents, read, without a pixel yet. Immutable.
 *
 * @param folder the subject's folder
 * @param construct what was implanted
 * @param settings thresholds: those of {@code settings.json} in the folder, else the defaults
 * @param poses poses set by hand, of {@code poses.json} in the folder
 * @param truth what is true, of a simulation
 * @param exams the exams in order of time; undated ones last, in the document's order
 * @param findings what a person should know about the documents
 */
public record ReviewSubject(
        SubjectFolder folder,
        Construct construct,
        MeasurementSettings settings,
        PoseFile poses,
        SimulationTruth truth,
        List<ReviewExam> exams,
        List<Finding> findings) {

    /** Name of the optional document with thresholds in a subject's folder. */
    public static final String SETTINGS_DOCUMENT = "settings.json";

    public ReviewSubject {
        exams = List.copyOf(exams);
        findings = List.copyOf(findings);
    }

    /**
     * Reads a subject's documents.
     *
     * @throws UseCaseException if one is missing or damaged; names file and field
     */
    public static ReviewSubject open(Path folder) throws UseCaseException {
        SubjectFolder subject = SubjectFolder.read(folder);
        Path settingsFile = folder.resolve(SETTINGS_DOCUMENT);
        ContactInputs inputs =
                ContactInputs.read(subject.construct(), Files.exists(settingsFile) ? settingsFile : null);
        List<Finding> findings = new ArrayList<>(surgeryDate(subject, inputs.construct()));
        findings.addAll(StoredCourse.older(folder));
        return new ReviewSubject(
                subject,
                inputs.construct(),
                inputs.settings(),
                PoseFile.ofSubject(folder),
                SimulationTruth.read(folder),
                inOrderOfTime(subject, inputs.construct()),
                findings);
    }

    /** The same subject with other thresholds. */
    public ReviewSubject with(MeasurementSettings other) {
        return new ReviewSubject(folder, construct, other, poses, truth, exams, findings);
    }

    private static List<ReviewExam> inOrderOfTime(SubjectFolder subject, Construct construct) {
        List<SubjectFolder.Exam> ordered = new ArrayList<>(subject.exams());
        ordered.sort(Comparator.comparing(
                exam -> exam.date().orElse(null), Comparator.nullsLast(Comparator.naturalOrder())));
        List<ReviewExam> exams = new ArrayList<>();
        for (SubjectFolder.Exam exam : ordered) {
            OptionalInt days = exam.date().isPresent()
                    ? OptionalInt.of(ExamLabel.daysSince(
                            construct.operationDate(), exam.date().get()))
                    : OptionalInt.empty();
            Optional<SubjectFolder.ExamSeries> measured = exam.measured();
            exams.add(new ReviewExam(
                    exams.size(),
                    exam.label(),
                    measured.map(SubjectFolder.ExamSeries::folder).orElse(exam.folder()),
                    days,
                    exam.date(),
                    exam.posture(),
                    measured.map(SubjectFolder.ExamSeries::seriesUid)));
        }
        return exams;
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
}
