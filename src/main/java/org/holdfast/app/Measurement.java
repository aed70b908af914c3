package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.progress.Progress;

/**
 * Use case: a construct on one or more exams: contact at its interfaces, zones round its screws, breaks, migration. The
 * reference exam is measured first and fixes what the others keep; its volume and one other are held at a time. An exam
 * that cannot be read is reported and does not stop the rest; one of radiographs is listed with what it allows.
 */
public final class Measurement {

    private static final double HEADER_SHARE = 0.05;

    /** What is measured. */
    public enum Scope {
        /** Interfaces only. */
        CONTACT,
        /** Interfaces and components. */
        ALL
    }

    private final Construct construct;
    private final MeasurementSettings settings;
    private final PoseFile poses;
    private final Scope scope;
    private final Progress progress;
    private final List<Finding> findings = new ArrayList<>();
    private final List<FilmResult> films = new ArrayList<>();

    /**
     * @param construct the construct on its reference exam
     * @param settings thresholds
     * @param poses poses set by hand, which stand instead of registration
     * @param scope what is measured
     * @param progress how far it is
     */
    public Measurement(
            Construct construct, MeasurementSettings settings, PoseFile poses, Scope scope, Progress progress) {
        this.construct = construct;
        this.settings = settings;
        this.poses = poses;
        this.scope = scope;
        this.progress = progress;
    }

    /**
     * Measures exams; the one whose series the construct was laid out on is the reference exam.
     *
     * @param exams at least one
     * @throws UseCaseException if no exam can be read, or the reference exam cannot
     */
    public ContactReport measure(List<ExamArgument> exams) throws UseCaseException {
        return measure(Optional.empty(), exams);
    }

    /**
     * Measures exams.
     *
     * @param reference the reference exam; it may be named among the others again
     * @param exams the other exams
     * @throws UseCaseException if no exam can be read, or the reference exam cannot
     */
    public ContactReport measure(Optional<ExamArgument> reference, List<ExamArgument> exams) throws UseCaseException {
        if (scope == Scope.CONTACT && construct.interfaces().isEmpty()) {
            throw new UseCaseException(
                    "construct " + construct.id() + ": interfaces: expected at least one, found none");
        }
        List<OpenedExam> order = inOrder(reference, exams);
        ExamMeasurement measurement = new ExamMeasurement(construct, settings, poses, scope);
        List<ExamResult> results = new ArrayList<>();
        for (int n = 0; n < order.size(); n++) {
            double from = HEADER_SHARE + (1 - HEADER_SHARE) * n / order.size();
            double to = HEADER_SHARE + (1 - HEADER_SHARE) * (n + 1) / order.size();
            try {
                results.add(measurement.measure(order.get(n), progress.part(from, Math.min(1, to))));
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

    /** The exams that can be measured, the reference exam first. */
    private List<OpenedExam> inOrder(Optional<ExamArgument> reference, List<ExamArgument> exams)
            throws UseCaseException {
        List<OpenedExam> first = reference.isPresent() ? open(List.of(reference.get())) : List.of();
        if (reference.isPresent() && first.isEmpty()) {
            throw new UseCaseException(whyNone());
        }
        List<OpenedExam> opened = new ArrayList<>(first);
        open(exams).stream()
                .filter(exam -> first.stream()
                        .noneMatch(r -> r.stack().where().equals(exam.stack().where())))
                .forEach(opened::add);
        if (opened.isEmpty()) {
            throw new UseCaseException(whyNone());
        }
        OpenedExam fixing = first.isEmpty() ? referenceOf(opened) : named(first.get(0));
        noteRepeats(opened);
        opened.remove(fixing);
        opened.add(0, fixing);
        return opened;
    }

    private OpenedExam named(OpenedExam reference) {
        if (!reference.seriesUid().equals(construct.referenceSeriesUid())) {
            findings.add(otherReference(reference));
        }
        return reference;
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
        findings.add(otherReference(first));
        return first;
    }

    private Finding otherReference(OpenedExam taken) {
        return Finding.warning(
                "NO_REFERENCE_EXAM",
                "None of the exams is the series on which the construct was laid out (" + construct.referenceSeriesUid()
                        + "); " + taken.label()
                        + " is taken in its place: threshold, host bone and edges are read there.",
                "construct " + construct.id());
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
}
