package org.holdfast.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.SeriesHash;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Disturbance;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.HuPlausibility;
import org.holdfast.measure.InterfaceCourse;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.Migration;
import org.holdfast.measure.MigrationMeasure;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.PointSpreadFromEdges;
import org.holdfast.measure.PorousFill;
import org.holdfast.measure.StaleKey;
import org.holdfast.measure.Verdict;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.ScanFacts;

/** Measures a subject's exams one after the other, the reference exam first; keeps what it fixed. */
final class ExamMeasurement {

    private static final String FROM_HERE = "the reference exam: motion is counted from here";

    private static final double POSE_FROM = 0.4;
    private static final double POSE_TO = 0.75;

    private final Construct construct;
    private final MeasurementSettings settings;
    private final ExamPosing posing;
    private final MigrationMeasure migration;
    private final List<InterfaceCourse> courses;
    private final Measurement.Scope scope;
    private final List<ComponentCourse> components;
    private OpenedExam reference;
    private ScanFacts referenceFacts;

    ExamMeasurement(Construct construct, MeasurementSettings settings, PoseFile poses, Measurement.Scope scope) {
        this.construct = construct;
        this.settings = settings;
        this.posing = new ExamPosing(construct, settings, poses);
        this.migration = new MigrationMeasure(construct, settings.motion());
        this.courses = InterfaceCourse.ofAll(construct, settings);
        this.scope = scope;
        // Asked for contact alone, breaks are looked for all the same: beside one no change can be stated.
        this.components = ComponentCourse.ofAll(construct, settings, scope);
    }

    /**
     * Measures one exam; the first is the reference exam.
     *
     * @throws DicomReadException if its files cannot be read
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    ExamResult measure(OpenedExam exam, Progress progress) throws DicomReadException {
        boolean isReference = reference == null;
        if (isReference) {
            reference = exam;
        }
        Stack stack = exam.stack();
        String sha256 = SeriesHash.of(stack, progress.part(0, 0.1));
        LoadedVolume loaded = VolumeLoader.load(stack, progress.part(0.1, POSE_FROM));
        List<Finding> notes = new ArrayList<>(exam.findings());
        // What is about the stack was said when it was opened; loading may add to it.
        loaded.findings().stream().filter(f -> !notes.contains(f)).forEach(notes::add);
        notes.addAll(otherPatient(exam));
        progress.stopIfCancelled();
        Progress finding = progress.part(POSE_FROM, POSE_TO);
        ExamPosing.Posed posed = isReference
                ? posing.ofReference(exam, loaded.volume(), finding)
                : posing.of(exam, loaded.volume(), finding);
        notes.addAll(posed.findings());
        ExamPoses poses = posed.poses()
                .value()
                .orElseGet(() -> ExamPoses.given(
                        RigidTransform.IDENTITY, PoseKind.REFUSED, posed.poses().why()));
        ExamScan scan = scan(exam, sha256, loaded, poses, posed.poses().value().isPresent());
        if (posed.poses().value().isPresent()) {
            notes.addAll(HuPlausibility.check(
                    loaded.volume(), construct.axes(), poses.construct().referenceToExam(), exam.label()));
        }
        progress.stopIfCancelled();
        Parts parts = posed.poses().value().isPresent()
                ? parts(scan, poses, isReference, notes, progress.part(POSE_TO, 1))
                : refused(scan, posed.poses().why());
        ScanFacts facts = new ScanFacts(loaded.acquisition(), loaded.volume().grid(), noiseSdHu(parts.interfaces()));
        if (isReference) {
            referenceFacts = facts;
        }
        return new ExamResult(
                exam.label(),
                exam.seriesUid(),
                sha256,
                exam.days(),
                isReference,
                isReference ? List.of() : Comparability.between(referenceFacts, facts),
                poses,
                posed.source(),
                scan.pointSpread(),
                parts.interfaces(),
                parts.components(),
                notes);
    }

    /** What was measured in an exam. */
    private record Parts(List<InterfaceExam> interfaces, List<ComponentExam> components) {}

    /** The exam with its blur: from the implant's own edges where it is known where they lie. */
    private ExamScan scan(OpenedExam exam, String sha256, LoadedVolume loaded, ExamPoses poses, boolean isFound) {
        PointSpreadEstimate usual = PointSpreadEstimate.ofKernelAndThickness(
                loaded.acquisition(), loaded.volume().grid());
        ExamScan scan = scan(exam, sha256, loaded, poses, usual);
        return isFound ? scan(exam, sha256, loaded, poses, PointSpreadFromEdges.of(construct, scan, settings)) : scan;
    }

    private static ExamScan scan(
            OpenedExam exam, String sha256, LoadedVolume loaded, ExamPoses poses, PointSpreadEstimate spread) {
        return new ExamScan(
                exam.label(),
                exam.seriesUid(),
                sha256,
                loaded.volume(),
                loaded.acquisition(),
                spread,
                poses.construct().referenceToExam(),
                poses.construct().kind());
    }

    private Parts parts(ExamScan scan, ExamPoses poses, boolean isReference, List<Finding> notes, Progress progress) {
        progress.report(0, "measuring screws and rods of " + scan.label());
        List<ComponentExam> measured = components.parallelStream()
                .map(course -> {
                    progress.stopIfCancelled();
                    return course.measure(scan, poses, migration(course.component(), poses, isReference));
                })
                .toList();
        progress.stopIfCancelled();
        progress.report(0.5, "measuring interfaces of " + scan.label());
        List<Continuity> continuity = measured.stream()
                .flatMap(part -> part.continuity().value().stream())
                .toList();
        List<Boolean> hadReference =
                courses.stream().map(c -> c.referenceLabel().isPresent()).toList();
        List<InterfaceExam> interfaces = courses.parallelStream()
                .map(course -> {
                    progress.stopIfCancelled();
                    Component body = construct.component(course.face().component());
                    return course.measure(
                            scan.at(poses.ofPart(body.id())),
                            Disturbance.of(construct, body, poses, continuity, settings));
                })
                .toList();
        for (int n = 0; n < courses.size(); n++) {
            if (!hadReference.get(n)
                    && !isReference
                    && courses.get(n).referenceLabel().isPresent()) {
                notes.add(Finding.warning(
                        "REFERENCE_NOT_MEASURED",
                        courses.get(n).face().label() + ": " + reference.label()
                                + " could not be measured, threshold, host bone and edges are read in this exam.",
                        scan.label()));
            }
        }
        return new Parts(interfaces, stated(measured));
    }

    private List<Migration> migration(Component component, ExamPoses poses, boolean isReference) {
        List<Migration> found = migration.of(component.id(), poses);
        return isReference
                ? found.stream()
                        .map(each -> new Migration(each.bone(), Answer.not(FROM_HERE)))
                        .toList()
                : found;
    }

    private Parts refused(ExamScan scan, String why) {
        String key = StaleKey.of(settings, construct, List.of(scan.seriesSha256(), scan.seriesSha256()));
        Verdict verdict = new Verdict(Verdict.Value.NOT_ANSWERABLE, List.of(why));
        return new Parts(
                courses.stream()
                        .map(course -> new InterfaceExam(
                                course.face(),
                                scan.label(),
                                verdict,
                                Optional.empty(),
                                Answer.not(why),
                                PorousFill.not(why),
                                Answer.not(why),
                                key))
                        .toList(),
                stated(components.stream()
                        .map(course -> course.refused(scan, why))
                        .toList()));
    }

    private List<ComponentExam> stated(List<ComponentExam> measured) {
        return scope == Measurement.Scope.ALL ? measured : List.of();
    }

    private List<Finding> otherPatient(OpenedExam exam) {
        String id = exam.stack().slices().get(0).identity().patientId();
        String expected = reference.stack().slices().get(0).identity().patientId();
        return id.equals(expected) || id.isEmpty() || expected.isEmpty()
                ? List.of()
                : List.of(Finding.warning(
                        "OTHER_PATIENT",
                        "The files carry another patient number than those of the reference exam: is it the same patient?",
                        exam.label()));
    }

    /** Noise in the host bone, from the interface that shows it best; empty where none does. */
    private static OptionalDouble noiseSdHu(List<InterfaceExam> parts) {
        return parts.stream()
                .flatMap(part -> part.contact().stream())
                .map(contact -> contact.noiseSdHu().value())
                .filter(OptionalDouble::isPresent)
                .mapToDouble(OptionalDouble::getAsDouble)
                .filter(noise -> noise > 0)
                .min();
    }
}
