package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.construct.Construct;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.SeriesHash;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
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

/**
 * Use case: interface contact of a construct on one or more exams. The reference exam is measured first and fixes what
 * the others keep; one volume is held at a time. An exam that cannot be read is reported and does not stop the rest; one of
 * radiographs is listed with what it allows.
 */
public final class ContactMeasurement {

    private static final double HEADER_SHARE = 0.1;

    private final Construct construct;
    private final MeasurementSettings settings;
    private final PoseFile poses;
    private final Progress progress;
    private final List<Finding> findings = new ArrayList<>();
    private final List<FilmResult> films = new ArrayList<>();
    private ScanFacts referenceFacts;

    /**
     * @param construct the construct on its reference exam
     * @param settings thresholds
     * @param poses poses of exams that lie elsewhere than the reference exam
     * @param progress how far it is
     */
    public ContactMeasurement(Construct construct, MeasurementSettings settings, PoseFile poses, Progress progress) {
        this.construct = construct;
        this.settings = settings;
        this.poses = poses;
        this.progress = progress;
    }

    /**
     * Measures exams.
     *
     * @param exams at least one
     * @throws UseCaseException if no exam can be read, or the reference exam cannot
     */
    public ContactReport measure(List<ExamArgument> exams) throws UseCaseException {
        if (construct.interfaces().isEmpty()) {
            throw new UseCaseException(
                    "construct " + construct.id() + ": interfaces: expected at least one, found none");
        }
        List<OpenedExam> opened = open(exams);
        if (opened.isEmpty()) {
            throw new UseCaseException(whyNone());
        }
        OpenedExam reference = referenceOf(opened);
        noteRepeats(opened);
        List<InterfaceCourse> courses = InterfaceCourse.ofAll(construct, settings);
        List<OpenedExam> order = new ArrayList<>(opened);
        order.remove(reference);
        order.add(0, reference);
        List<ExamResult> results = new ArrayList<>();
        for (int n = 0; n < order.size(); n++) {
            double from = HEADER_SHARE + (1 - HEADER_SHARE) * n / order.size();
            double to = HEADER_SHARE + (1 - HEADER_SHARE) * (n + 1) / order.size();
            try {
                results.add(measure(order.get(n), reference, courses, progress.part(from, Math.min(1, to))));
            } catch (DicomReadException e) {
                if (n == 0) {
                    throw new UseCaseException(
                            "reference exam " + order.get(0).argument().folder() + ": " + e.getMessage(), e);
                }
                findings.add(Finding.error(
                        "EXAM_NOT_READ",
                        e.getMessage(),
                        order.get(n).argument().folder().toString()));
            }
        }
        // Undated exams keep the order in which they were named, after the dated ones.
        results.sort(Comparator.comparingLong(
                r -> r.daysSinceSurgery().isPresent() ? r.daysSinceSurgery().getAsInt() : Long.MAX_VALUE));
        films.sort(Comparator.comparingLong(
                f -> f.daysSinceSurgery().isPresent() ? f.daysSinceSurgery().getAsInt() : Long.MAX_VALUE));
        return new ContactReport(construct, settings, results, films, findings);
    }

    private List<OpenedExam> open(List<ExamArgument> exams) {
        List<OpenedExam> opened = new ArrayList<>();
        for (int n = 0; n < exams.size(); n++) {
            ExamArgument exam = exams.get(n);
            Progress part = progress.part(HEADER_SHARE * n / exams.size(), HEADER_SHARE * (n + 1) / exams.size());
            try {
                take(Opened.open(exam, construct, part), opened);
            } catch (UseCaseException e) {
                findings.add(Finding.error(
                        "EXAM_NOT_READ", e.getMessage(), exam.folder().toString()));
            }
        }
        return opened;
    }

    private void take(Opened exam, List<OpenedExam> opened) {
        if (exam instanceof OpenedExam stack) {
            opened.add(stack);
        } else if (exam instanceof OpenedFilms radiographs) {
            films.add(radiographs.result());
            findings.add(Finding.info(
                    "RADIOGRAPH_NOT_MEASURED",
                    exam.label() + " is listed as " + FilmResult.VERDICT.value().words() + ": "
                            + FilmResult.VERDICT.causes().get(0),
                    exam.argument().folder().toString()));
        }
    }

    private String whyNone() {
        String why = String.join(" ", findings.stream().map(Finding::text).toList());
        return films.isEmpty() ? "No exam could be read. " + why : "No exam can be measured. " + why;
    }

    private OpenedExam referenceOf(List<OpenedExam> opened) {
        for (OpenedExam exam : opened) {
            if (exam.seriesUid().equals(construct.referenceSeriesUid())) {
                return exam;
            }
        }
        OpenedExam first = opened.get(0);
        findings.add(Finding.warning(
                "NO_REFERENCE_EXAM",
                "None of the exams is the series on which the construct was laid out (" + construct.referenceSeriesUid()
                        + "); " + first.label()
                        + " is taken in its place: threshold, host bone and edges are read there.",
                "construct " + construct.id()));
        return first;
    }

    /** One series under two names is one exam; a pose given for a label counts for every exam of that label. */
    private void noteRepeats(List<OpenedExam> opened) {
        for (int n = 1; n < opened.size(); n++) {
            OpenedExam later = opened.get(n);
            for (OpenedExam earlier : opened.subList(0, n)) {
                if (later.stack().where().equals(earlier.stack().where())) {
                    findings.add(Finding.warning(
                            "SAME_EXAM_TWICE",
                            "The same series is given as " + earlier.label() + " and as " + later.label()
                                    + "; a second look at one scan is no second exam.",
                            later.stack().where()));
                } else if (later.label().equals(earlier.label())) {
                    findings.add(Finding.warning(
                            "SAME_LABEL_TWICE",
                            "Two exams have the label " + later.label() + "; a pose given for it counts for both.",
                            later.stack().where()));
                }
            }
        }
    }

    private static List<Finding> otherPatient(OpenedExam exam, OpenedExam reference) {
        String id = exam.stack().slices().get(0).identity().patientId();
        String expected = reference.stack().slices().get(0).identity().patientId();
        return id.equals(expected) || id.isEmpty() || expected.isEmpty()
                ? List.of()
                : List.of(Finding.warning(
                        "OTHER_PATIENT",
                        "The files carry another patient number than those of the reference exam: is it the same patient?",
                        exam.label()));
    }

    private ExamResult measure(OpenedExam exam, OpenedExam reference, List<InterfaceCourse> courses, Progress part)
            throws DicomReadException {
        Stack stack = exam.stack();
        String sha256 = SeriesHash.of(stack, part.part(0, 0.1));
        LoadedVolume loaded = VolumeLoader.load(stack, part.part(0.1, 0.5));
        List<Finding> notes = new ArrayList<>(exam.findings());
        // What is about the stack was said when it was opened; loading may add to it.
        loaded.findings().stream().filter(f -> !notes.contains(f)).forEach(notes::add);
        notes.addAll(otherPatient(exam, reference));
        boolean isReference = exam == reference;
        OpenedExam.Pose posed = exam.pose(construct, poses);
        RigidTransform pose = posed.referenceToExam();
        notes.addAll(posed.findings());
        notes.addAll(HuPlausibility.check(loaded.volume(), construct.axes(), pose, exam.label()));
        Acquisition acquisition = loaded.acquisition();
        PointSpreadEstimate spread = PointSpreadEstimate.ofKernelAndThickness(
                acquisition, loaded.volume().grid());
        ExamScan scan = new ExamScan(
                exam.label(), exam.seriesUid(), sha256, loaded.volume(), acquisition, spread, pose, posed.kind());
        List<InterfaceExam> parts = new ArrayList<>();
        for (int n = 0; n < courses.size(); n++) {
            part.stopIfCancelled();
            part.report(0.5 + 0.5 * n / courses.size(), "measuring " + exam.label());
            boolean hadReference = courses.get(n).referenceLabel().isPresent();
            parts.add(courses.get(n).measure(scan));
            if (!hadReference && !isReference && courses.get(n).referenceLabel().isPresent()) {
                notes.add(Finding.warning(
                        "REFERENCE_NOT_MEASURED",
                        courses.get(n).face().label() + ": " + reference.label()
                                + " could not be measured, threshold, host bone and edges are read in this exam.",
                        exam.label()));
            }
        }
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
                posed.kind(),
                posed.source(),
                pose,
                spread,
                parts,
                notes);
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
