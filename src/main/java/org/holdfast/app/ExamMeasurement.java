package org.holdfast.app;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.construct.Construct;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.SeriesHash;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.HuPlausibility;
import org.holdfast.measure.InterfaceCourse;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.ScanFacts;

/** Measures a subject's exams one after the other, the reference exam first; keeps what it fixed. */
final class ExamMeasurement {

    private final Construct construct;
    private final PoseFile poses;
    private final List<InterfaceCourse> courses;
    private final List<ComponentCourse> components;
    private OpenedExam reference;
    private ScanFacts referenceFacts;

    ExamMeasurement(Construct construct, MeasurementSettings settings, PoseFile poses, Measurement.Scope scope) {
        this.construct = construct;
        this.poses = poses;
        this.courses = InterfaceCourse.ofAll(construct, settings);
        this.components = scope == Measurement.Scope.ALL ? ComponentCourse.ofAll(construct, settings) : List.of();
    }

    /**
     * Measures one exam; the first is the reference exam.
     *
     * @throws DicomReadException if its files cannot be read
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    ExamResult measure(OpenedExam exam, Progress part) throws DicomReadException {
        boolean isReference = reference == null;
        if (isReference) {
            reference = exam;
        }
        Stack stack = exam.stack();
        String sha256 = SeriesHash.of(stack, part.part(0, 0.1));
        LoadedVolume loaded = VolumeLoader.load(stack, part.part(0.1, 0.5));
        List<Finding> notes = new ArrayList<>(exam.findings());
        // What is about the stack was said when it was opened; loading may add to it.
        loaded.findings().stream().filter(f -> !notes.contains(f)).forEach(notes::add);
        notes.addAll(otherPatient(exam));
        OpenedExam.Pose posed = exam.pose(construct, poses);
        notes.addAll(posed.findings());
        notes.addAll(HuPlausibility.check(loaded.volume(), construct.axes(), posed.referenceToExam(), exam.label()));
        Acquisition acquisition = loaded.acquisition();
        PointSpreadEstimate spread = PointSpreadEstimate.ofKernelAndThickness(
                acquisition, loaded.volume().grid());
        ExamScan scan = new ExamScan(
                exam.label(),
                exam.seriesUid(),
                sha256,
                loaded.volume(),
                acquisition,
                spread,
                posed.referenceToExam(),
                posed.kind());
        ExamPoses found =
                ExamPoses.given(posed.referenceToExam(), posed.kind(), "the pose was not found by registration");
        List<ComponentExam> measured = components.parallelStream()
                .map(course -> course.measure(scan, found, List.of()))
                .toList();
        List<InterfaceExam> parts = interfaces(scan, isReference, notes, part.part(0.5, 1));
        ScanFacts facts = new ScanFacts(acquisition, loaded.volume().grid(), noiseSdHu(parts));
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
                found,
                posed.source(),
                spread,
                parts,
                measured,
                notes);
    }

    private List<InterfaceExam> interfaces(ExamScan scan, boolean isReference, List<Finding> notes, Progress part) {
        List<InterfaceExam> parts = new ArrayList<>();
        for (int n = 0; n < courses.size(); n++) {
            part.stopIfCancelled();
            part.report((double) n / courses.size(), "measuring " + scan.label());
            boolean hadReference = courses.get(n).referenceLabel().isPresent();
            parts.add(courses.get(n).measure(scan));
            if (!hadReference && !isReference && courses.get(n).referenceLabel().isPresent()) {
                notes.add(Finding.warning(
                        "REFERENCE_NOT_MEASURED",
                        courses.get(n).face().label() + ": " + reference.label()
                                + " could not be measured, threshold, host bone and edges are read in this exam.",
                        scan.label()));
            }
        }
        return parts;
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
