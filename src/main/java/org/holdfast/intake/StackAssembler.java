package org.holdfast.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.VolumeGrid;

/** Makes stacks of a series' slices: one orientation, matrix, pixel spacing and kernel, strictly ascending positions. */
final class StackAssembler {

    /** A lean under this angle is rounding of written positions, degrees. */
    private static final double LEAN_SHOWN_DEG = 0.1;

    /** Order that depends on contents only, so that names and file order decide nothing. */
    private static final Comparator<Slice> BY_CONTENT = Comparator.comparing(
                    (Slice h) -> numbers(h.plane()), Arrays::compare)
            .thenComparing(h -> h.identity().sopInstanceUid())
            .thenComparing(h -> h.variants().toString())
            .thenComparing(h -> h.acquisition().toString())
            .thenComparingInt(Slice::frameIndex);

    private final String seriesInstanceUid;
    private final List<Finding> findings;
    private final List<Stack> stacks = new ArrayList<>();

    StackAssembler(String seriesInstanceUid, List<Finding> findings) {
        this.seriesInstanceUid = seriesInstanceUid;
        this.findings = findings;
    }

    List<Stack> assemble(List<Slice> slices) {
        for (List<Slice> parallel : groups(slices)) {
            SlicePlane reference = parallel.get(0).plane();
            List<Slice> sorted = new ArrayList<>(parallel);
            sorted.sort(Comparator.comparingDouble((Slice h) -> h.plane().positionAlong(reference)));
            List<Slice> single = new ArrayList<>(new Duplicates(findings).dropped(sorted));
            single.sort(Comparator.comparingDouble((Slice h) -> h.plane().positionAlong(reference)));
            addStacks(single);
        }
        return stacks;
    }

    private void addStacks(List<Slice> slices) {
        StackSplitter.Split split = StackSplitter.split(slices);
        if (split.stacks().isEmpty()) {
            int positions = StackSplitter.distinctPositions(slices);
            String text = positions == 1
                    ? slices.size() + " images at the same position"
                    : slices.size() + " images at " + positions + " positions, and no attribute tells them apart";
            findings.add(Finding.warning(
                    "SEVERAL_IMAGES_AT_ONE_POSITION",
                    "several images at one position: not a volume (" + text + ")",
                    "series " + seriesInstanceUid));
            return;
        }
        if (!split.by().isEmpty()) {
            findings.add(Finding.info(
                    "SPLIT_BY_ATTRIBUTE",
                    "positions repeat or interleave: split by " + split.by() + " into "
                            + split.stacks().size() + " stacks",
                    "series " + seriesInstanceUid));
        }
        for (List<Slice> part : split.stacks()) {
            stacks.add(stack(part));
        }
    }

    private Stack stack(List<Slice> slices) {
        SlicePlane first = slices.get(0).plane();
        List<PatientPoint> origins =
                slices.stream().map(h -> h.plane().position()).toList();
        VolumeGrid grid = new VolumeGrid(
                slices.get(0).layout().columns(),
                slices.get(0).layout().rows(),
                first.columnSpacingMm(),
                first.rowSpacingMm(),
                first.rowDirection(),
                first.columnDirection(),
                origins);
        int number = stacks.size() + 1;
        String where = "series " + seriesInstanceUid + ", stack " + number;
        List<Finding> own = new ArrayList<>(geometryFindings(grid, where));
        own.addAll(StackFacts.findings(slices, where));
        Optional<String> whyNoHu = StackFacts.whyNoHu(slices);
        whyNoHu.ifPresent(why -> own.add(Finding.info("NO_HU", "no HU: " + why, where)));
        return new Stack(seriesInstanceUid, number, grid, slices, whyNoHu, own);
    }

    private static List<Finding> geometryFindings(VolumeGrid grid, String where) {
        List<Finding> out = new ArrayList<>();
        if (grid.shearDeg() > LEAN_SHOWN_DEG) {
            out.add(Finding.info(
                    "SHEARED",
                    String.format(
                            Locale.ROOT,
                            "the image positions lean by %.2f° against the slices' normal; the stack is used as it lies",
                            grid.shearDeg()),
                    where));
        }
        if (grid.isIrregular()) {
            out.add(Finding.warning(
                    "IRREGULAR",
                    "slice positions are off a regular grid by more than 1 % of the pitch; true positions are used",
                    where));
        }
        for (int k : grid.holesAfter()) {
            out.add(Finding.warning(
                    "MISSING_SLICES",
                    String.format(
                            Locale.ROOT,
                            "slices are missing between slice %d and slice %d (1-based): a step of %.3f mm where the"
                                    + " pitch is %.3f mm; nothing is assessable there",
                            k + 1,
                            k + 2,
                            grid.positionMm(k + 1) - grid.positionMm(k),
                            grid.pitchMm().orElseThrow()),
                    where));
        }
        return out;
    }

    /** Groups of parallel slices with one matrix, spacing and kernel; membership does not depend on the order. */
    private static List<List<Slice>> groups(List<Slice> slices) {
        List<Slice> ordered = new ArrayList<>(slices);
        ordered.sort(BY_CONTENT);
        List<List<Slice>> groups = new ArrayList<>();
        for (Slice slice : ordered) {
            groups.stream()
                    .filter(group -> belongTogether(group.get(0), slice))
                    .findFirst()
                    .orElseGet(() -> {
                        groups.add(new ArrayList<>());
                        return groups.get(groups.size() - 1);
                    })
                    .add(slice);
        }
        return groups;
    }

    private static boolean belongTogether(Slice a, Slice b) {
        return a.layout().rows() == b.layout().rows()
                && a.layout().columns() == b.layout().columns()
                && a.acquisition().kernel().equals(b.acquisition().kernel())
                && a.plane().isParallelTo(b.plane());
    }

    private static double[] numbers(SlicePlane p) {
        return new double[] {
            p.rowDirection().x(),
            p.rowDirection().y(),
            p.rowDirection().z(),
            p.columnDirection().x(),
            p.columnDirection().y(),
            p.columnDirection().z(),
            p.rowSpacingMm(),
            p.columnSpacingMm(),
            p.position().x(),
            p.position().y(),
            p.position().z()
        };
    }
}
