package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdfast.finding.Finding;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.Series;
import org.holdfast.intake.Stack;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition.Known;

/**
 * The stack of an exam that is measured: the one that was named, or the proposed one.
 *
 * @param stack the stack
 * @param findings why this one, and what could not be read
 */
record MeasurableStack(Stack stack, List<Finding> findings) {

    /** Fewer slices than this are no volume to measure in. */
    private static final int MIN_SLICES = 3;

    /** No artefact reduction first, then a whole stack, then the finest pitch, the most slices, and a fixed order. */
    private static final Comparator<Stack> BEST_FIRST = Comparator.comparing(
                    (Stack s) -> s.acquisition().artefactReduction() == Known.YES)
            .thenComparing(s -> !s.grid().holesAfter().isEmpty())
            .thenComparing(s -> s.grid().isIrregular())
            .thenComparing(s -> s.grid().pitchMm().orElse(Double.MAX_VALUE))
            .thenComparing(s -> -s.grid().slices())
            .thenComparing(Stack::seriesInstanceUid)
            .thenComparing(Stack::stackNumber);

    /**
     * Finds the stack of an exam.
     *
     * @throws UseCaseException if there is none, with what was found instead
     */
    static MeasurableStack find(ExamArgument exam, Progress progress) throws UseCaseException {
        IntakeReport report = Intake.scan(List.of(exam.folder()), progress);
        List<Finding> findings = new ArrayList<>();
        for (IntakeReport.Unreadable file : report.unreadable()) {
            findings.add(
                    Finding.error("FILE_NOT_READ", file.reason(), file.path().toString()));
        }
        List<Stack> candidates = new ArrayList<>();
        List<String> reasons = new ArrayList<>();
        for (Series series : report.series()) {
            if (exam.seriesUid().isPresent() && !exam.seriesUid().get().equals(series.seriesInstanceUid())) {
                continue;
            }
            collect(series, candidates, reasons);
        }
        if (candidates.isEmpty()) {
            throw new UseCaseException(nothingToMeasure(exam, report, reasons));
        }
        candidates.sort(BEST_FIRST);
        Stack best = candidates.get(0);
        if (candidates.size() > 1) {
            findings.add(Finding.info(
                    "SEVERAL_STACKS",
                    candidates.size() + " stacks can be measured; taken: " + described(best) + "; left: "
                            + String.join(
                                    ", ",
                                    candidates.stream()
                                            .skip(1)
                                            .map(MeasurableStack::described)
                                            .toList())
                            + ". Name another by DIR#SeriesUID.",
                    exam.folder().toString()));
        }
        return new MeasurableStack(best, findings);
    }

    private static void collect(Series series, List<Stack> candidates, List<String> reasons) {
        if (series.stacks().isEmpty()) {
            reasons.add("series " + series.seriesInstanceUid() + " ("
                    + Optional.of(series.modality()).filter(m -> !m.isBlank()).orElse("no modality")
                    + ") holds no stack");
        }
        for (Stack stack : series.stacks()) {
            if (stack.whyNoHu().isPresent()) {
                reasons.add(stack.where() + ": " + stack.whyNoHu().get());
            } else if (stack.grid().slices() < MIN_SLICES) {
                reasons.add(stack.where() + ": " + stack.grid().slices() + " slices, at least " + MIN_SLICES
                        + " are needed");
            } else {
                candidates.add(stack);
            }
        }
    }

    private static String nothingToMeasure(ExamArgument exam, IntakeReport report, List<String> reasons) {
        String looked = exam.seriesUid()
                .map(uid -> exam.folder() + ", series " + uid)
                .orElse(exam.folder().toString());
        if (!reasons.isEmpty()) {
            return looked + ": no CT stack to measure: " + String.join("; ", reasons);
        }
        if (exam.seriesUid().isPresent() && !report.series().isEmpty()) {
            return looked + ": there is no such series; found are "
                    + String.join(
                            ", ",
                            report.series().stream()
                                    .map(Series::seriesInstanceUid)
                                    .toList());
        }
        return looked + ": no CT stack to measure: "
                + (report.unreadable().isEmpty()
                        ? "no DICOM file found"
                        : report.unreadable().get(0).path() + ": "
                                + report.unreadable().get(0).reason());
    }

    private static String described(Stack stack) {
        return String.format(
                java.util.Locale.ROOT,
                "series %s, stack %d (kernel %s, %d slices, pitch %.3f mm)",
                stack.seriesInstanceUid(),
                stack.stackNumber(),
                stack.acquisition().kernel().isEmpty()
                        ? "not said"
                        : stack.acquisition().kernel(),
                stack.grid().slices(),
                stack.grid().pitchMm().orElse(Double.NaN));
    }
}
