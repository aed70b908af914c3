package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.finding.Finding;

/**
 * The stack of an exam that is proposed for measuring. Immutable.
 *
 * @param stack the proposed stack; empty if none can be measured
 * @param findings what a person should know about the choice, or why there is none
 */
public record StackChoice(Optional<Stack> stack, List<Finding> findings) {

    public StackChoice {
        findings = List.copyOf(findings);
    }

    /**
     * Proposes a stack with HU and more than one slice: enough slices, no cone beam, no artefact reduction, no loss, no
     * holes, regular, no reformat, no computed energy, thin, with a bone kernel and an extended scale, in this order; then
     * the thinner slices, the smaller voxels, the more slices.
     *
     * @param seriesInstanceUid the only series to be taken; empty for any
     */
    public static StackChoice of(IntakeReport report, Optional<String> seriesInstanceUid) {
        List<Stack> all = report.series().stream()
                .filter(s ->
                        seriesInstanceUid.isEmpty() || s.seriesInstanceUid().equals(seriesInstanceUid.get()))
                .flatMap(s -> s.stacks().stream())
                .toList();
        List<Stack> measurable = all.stream()
                .filter(s -> s.whyNoHu().isEmpty() && s.grid().slices() > 1)
                .sorted(StackPreference.byHeaders().bestFirst())
                .toList();
        if (measurable.isEmpty()) {
            return new StackChoice(Optional.empty(), List.of(whyNone(report, seriesInstanceUid, all)));
        }
        Stack best = measurable.get(0);
        List<Finding> findings = new ArrayList<>();
        if (measurable.size() > 1) {
            findings.add(Finding.warning(
                    "SEVERAL_MEASURABLE_STACKS",
                    String.format(
                            Locale.ROOT,
                            "%d stacks could be measured; proposed is one of %d slices, pitch %.3f mm, kernel %s",
                            measurable.size(),
                            best.grid().slices(),
                            best.grid().pitchMm().orElseThrow(),
                            best.acquisition().kernel().isEmpty()
                                    ? "not said"
                                    : best.acquisition().kernel()),
                    best.where()));
        }
        return new StackChoice(Optional.of(best), findings);
    }

    private static Finding whyNone(IntakeReport report, Optional<String> uid, List<Stack> all) {
        boolean seriesThere = uid.isEmpty()
                || report.series().stream().anyMatch(s -> s.seriesInstanceUid().equals(uid.get()));
        String where = uid.map(u -> "series " + u).orElse("");
        if (!seriesThere) {
            return Finding.error(
                    "NO_SUCH_SERIES",
                    "the series is not among the " + report.series().size() + " found",
                    where);
        }
        String why = all.isEmpty()
                ? noStack(report, uid)
                : all.stream()
                        .map(s -> s.whyNoHu().orElse("a single slice"))
                        .distinct()
                        .reduce((a, b) -> a + "; " + b)
                        .orElseThrow();
        return Finding.error("NO_MEASURABLE_STACK", "nothing here can be measured: " + why, where);
    }

    /** No stack, and what is there instead. */
    private static String noStack(IntakeReport report, Optional<String> uid) {
        if (report.series().isEmpty()) {
            return "no DICOM image was found";
        }
        List<String> found = report.series().stream()
                .filter(s -> uid.isEmpty() || s.seriesInstanceUid().equals(uid.get()))
                .flatMap(s -> s.findings().isEmpty()
                        ? Stream.of(s.modality() + ", no slices of a volume")
                        : s.findings().stream().map(Finding::text))
                .distinct()
                .toList();
        return "no stack of slices was found, but: " + String.join("; ", found);
    }
}
