package org.holdfast.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.holdfast.finding.Finding;

/** Makes a series of its files: sorts out what is no slice, makes stacks of the rest, gathers what is to be said. */
final class SeriesAssembler {

    private SeriesAssembler() {}

    /**
     * @param unordered files of one series and one patient
     * @param aboutFiles what was found about them together before
     */
    static Series assemble(List<ImageHeader> unordered, List<Finding> aboutFiles) {
        List<ImageHeader> headers = new ArrayList<>(unordered);
        headers.sort(Comparator.comparing((ImageHeader h) -> h.identity().sopInstanceUid())
                .thenComparing(ImageHeader::name));
        Identity first = headers.get(0).identity();
        List<Finding> findings = new ArrayList<>(aboutFiles);
        List<Slice> slices = new ArrayList<>();
        SeriesKind kind = SeriesKind.OTHER;
        for (ImageHeader header : headers) {
            findings.addAll(header.findings());
            ImageKind imageKind = ImageKind.of(header);
            imageKind.whyNoSlice().ifPresentOrElse(findings::add, () -> addSlices(header, slices, findings));
            kind = higher(kind, imageKind.whyNoSlice().isPresent() ? imageKind.seriesKind() : SeriesKind.IMAGE);
        }
        List<Stack> stacks = new StackAssembler(first.seriesInstanceUid(), findings).assemble(slices);
        for (Stack stack : stacks) {
            findings.addAll(stack.findings());
        }
        return new Series(
                first.seriesInstanceUid(),
                first.studyInstanceUid(),
                headers.stream()
                        .map(h -> h.identity().modality())
                        .distinct()
                        .sorted()
                        .collect(Collectors.joining("|")),
                first.description(),
                stacks.isEmpty() ? kind : SeriesKind.VOLUME,
                stacks,
                headers,
                FindingSummary.of(findings));
    }

    private static void addSlices(ImageHeader header, List<Slice> slices, List<Finding> findings) {
        List<Slice> all = header.slices();
        List<Slice> placed = all.stream().filter(s -> s.placed().isPresent()).toList();
        slices.addAll(placed);
        if (placed.size() < all.size()) {
            findings.add(Finding.warning(
                    "FRAMES_NOT_PLACED",
                    all.size() - placed.size() + " of " + all.size()
                            + " frames have no position, orientation or pixel spacing and are left out",
                    header.name()));
        }
    }

    private static SeriesKind higher(SeriesKind a, SeriesKind b) {
        return a.compareTo(b) < 0 ? a : b;
    }
}
