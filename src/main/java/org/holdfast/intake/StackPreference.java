package org.holdfast.intake;

import static org.holdfast.intake.RoleReason.note;
import static org.holdfast.intake.RoleReason.speaksAgainst;
import static org.holdfast.intake.RoleReason.speaksFor;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.VolumeGrid;

/**
 * What makes one stack better for measuring than another: criteria in falling weight, each with its words. Ends with the
 * contents' own identifiers, so that the order of files and their names decide nothing.
 */
final class StackPreference {

    /** Fewer slices than this show no interface. */
    private static final int FEW_SLICES = 10;

    /** Slices up to this thick show gaps of a millimetre; among them the kernel decides before the last tenth, mm. */
    private static final double THIN_MM = 1.25;

    /** Slices thicker than this hide whatever is thinner than they are, mm. */
    private static final double THICK_MM = 2.5;

    /**
     * One criterion.
     *
     * @param rank smaller is better
     * @param words what it says of a stack by itself; empty if nothing
     * @param ownWords the same as a few words, to be set beside those of another stack
     */
    private record Criterion(
            ToDoubleFunction<Stack> rank,
            Function<Stack, Optional<RoleReason>> words,
            Function<Stack, String> ownWords) {}

    private final Function<Stack, ScaleReach> reach;
    private final List<Criterion> criteria;

    StackPreference(Function<Stack, ScaleReach> reach) {
        this.reach = reach;
        this.criteria = Stream.of(whatItIs(), howItLies(), howFineItIs())
                .flatMap(List::stream)
                .toList();
    }

    static StackPreference byHeaders() {
        return new StackPreference(ScaleReach::ofHeader);
    }

    Comparator<Stack> bestFirst() {
        Comparator<Stack> order = Comparator.comparing(s -> 0);
        for (Criterion criterion : criteria) {
            order = order.thenComparingDouble(criterion.rank);
        }
        return order.thenComparing(Stack::seriesInstanceUid)
                .thenComparingInt(Stack::stackNumber)
                .thenComparing(s -> s.slices().get(0).identity().sopInstanceUid());
    }

    /** What each criterion says of a stack: what speaks against it first. */
    List<RoleReason> reasons(Stack stack) {
        return criteria.stream()
                .flatMap(c -> c.words.apply(stack).stream())
                .sorted(Comparator.comparing(r -> r.bearing() == RoleReason.Bearing.AGAINST ? 0 : 1))
                .toList();
    }

    /** The first criterion by which a stack is worse than a better one. */
    RoleReason whyNot(Stack stack, Stack better) {
        for (Criterion c : criteria) {
            if (c.rank.applyAsDouble(stack) > c.rank.applyAsDouble(better)) {
                return speaksAgainst(c.ownWords.apply(stack) + "; the measured one: " + c.ownWords.apply(better));
            }
        }
        return note("as good as the measured one");
    }

    static boolean isThick(Stack stack) {
        return thicknessMm(stack) > THICK_MM;
    }

    /** What a slice averages over: its thickness, or the step to the next where that is longer or all that is said. */
    static double thicknessMm(Stack stack) {
        return Math.max(
                stack.grid().pitchMm().orElse(0),
                stack.acquisition().sliceThicknessMm().orElse(0));
    }

    static KernelSharpness sharpness(Stack stack) {
        return KernelSharpness.of(stack.acquisition().kernel());
    }

    static boolean isLossy(Stack stack) {
        return stack.slices().stream().anyMatch(s -> s.acquisition().lossy().isPresent());
    }

    private static List<Criterion> whatItIs() {
        return List.of(
                new Criterion(
                        s -> isFew(s) ? 1 : 0,
                        StackPreference::slices,
                        s -> s.grid().slices() + " slices"),
                new Criterion(
                        s -> made(s).coneBeam() == Known.YES ? 1 : 0,
                        s -> made(s).coneBeam() == Known.YES
                                ? Optional.of(speaksAgainst("cone-beam volume: its values are not trusted as HU"))
                                : Optional.empty(),
                        s -> made(s).coneBeam() == Known.YES ? "cone beam" : "no cone beam"),
                new Criterion(
                        s -> made(s).artefactReduction() == Known.YES ? 1 : 0,
                        s -> Optional.of(artefactReduction(made(s).artefactReduction())),
                        s -> made(s).artefactReduction() == Known.YES
                                ? "artefact-reduced"
                                : "not said to be artefact-reduced"),
                new Criterion(
                        s -> isLossy(s) ? 1 : 0,
                        s -> Optional.of(
                                isLossy(s)
                                        ? speaksAgainst("compressed with loss: HU may be off")
                                        : speaksFor("not compressed with loss")),
                        s -> isLossy(s) ? "compressed with loss" : "without loss"));
    }

    private static List<Criterion> howItLies() {
        return List.of(
                new Criterion(
                        s -> s.grid().holesAfter().isEmpty() ? 0 : 1,
                        s -> Optional.of(holes(s)),
                        s -> s.grid().holesAfter().isEmpty() ? "no holes" : "holes"),
                new Criterion(
                        s -> s.grid().isIrregular() ? 1 : 0,
                        s -> Optional.of(
                                s.grid().isIrregular() ? speaksAgainst("uneven spacing") : speaksFor("even spacing")),
                        s -> s.grid().isIrregular() ? "uneven spacing" : "even spacing"),
                new Criterion(
                        s -> Reformat.of(s).isReformatted() ? 1 : 0,
                        s -> Optional.of(Reformat.of(s).reason()),
                        s -> Reformat.of(s).words()),
                new Criterion(
                        s -> made(s).monoEnergyKeV().isPresent() ? 1 : 0,
                        s -> made(s).monoEnergyKeV().isPresent()
                                ? Optional.of(speaksAgainst(energy(s) + ": HU differ from those of a tube voltage"))
                                : Optional.empty(),
                        StackPreference::energy));
    }

    private List<Criterion> howFineItIs() {
        return List.of(
                new Criterion(
                        s -> thicknessMm(s) <= THIN_MM ? 0 : thicknessMm(s) <= THICK_MM ? 1 : 2,
                        s -> Optional.of(thickness(s)),
                        StackPreference::thicknessWords),
                new Criterion(s -> sharpness(s).rank(), s -> Optional.of(kernel(s)), StackPreference::kernelWords),
                new Criterion(
                        s -> reach.apply(s).kind().ordinal(),
                        s -> Optional.of(scale(reach.apply(s))),
                        s -> reach.apply(s).words()),
                new Criterion(StackPreference::thicknessMm, s -> Optional.empty(), StackPreference::thicknessWords),
                new Criterion(s -> voxelMm3(s.grid()), s -> Optional.empty(), StackPreference::voxelWords),
                new Criterion(
                        s -> -s.grid().slices(),
                        s -> Optional.empty(),
                        s -> s.grid().slices() + " slices"));
    }

    private static Acquisition made(Stack stack) {
        return stack.acquisition();
    }

    private static boolean isFew(Stack stack) {
        return stack.grid().slices() < FEW_SLICES;
    }

    private static Optional<RoleReason> slices(Stack stack) {
        return Optional.of(
                isFew(stack)
                        ? speaksAgainst("only " + stack.grid().slices() + " slices: too few to show an interface")
                        : speaksFor(stack.grid().slices() + " slices"));
    }

    private static RoleReason artefactReduction(Known known) {
        return switch (known) {
            case YES -> speaksAgainst("artefact-reduced: can draw or hide a break, a zone or bone at metal");
            case NO -> speaksFor("no artefact reduction");
            case UNKNOWN -> note("no sign of artefact reduction, though the files do not exclude it");
        };
    }

    private static RoleReason holes(Stack stack) {
        int holes = stack.grid().holesAfter().size();
        return holes == 0
                ? speaksFor("no slices missing")
                : speaksAgainst("slices missing "
                        + (holes == 1 ? "after slice " : "in " + holes + " places, first after slice ")
                        + (stack.grid().holesAfter().get(0) + 1));
    }

    private static RoleReason thickness(Stack stack) {
        String mm = thicknessWords(stack);
        if (thicknessMm(stack) <= THIN_MM) {
            return speaksFor("thin: " + mm);
        }
        String lost = String.format(Locale.ROOT, ": gaps under %.3g mm are lost", thicknessMm(stack));
        return isThick(stack) ? speaksAgainst("thick: " + mm + lost) : note(mm);
    }

    private static String thicknessWords(Stack stack) {
        return String.format(Locale.ROOT, "slices of %.3g mm", thicknessMm(stack));
    }

    private static RoleReason kernel(Stack stack) {
        String words = kernelWords(stack);
        return switch (sharpness(stack)) {
            case BONE -> speaksFor(words);
            case SOFT -> speaksAgainst(words + ": edges are blurred");
            case EDGE, STANDARD, UNKNOWN -> note(words);
        };
    }

    private static String kernelWords(Stack stack) {
        String kernel = stack.acquisition().kernel();
        return kernel.isEmpty() ? "kernel not said" : sharpness(stack).words() + " " + kernel;
    }

    private static RoleReason scale(ScaleReach reach) {
        return switch (reach.kind()) {
            case EXTENDED -> speaksFor(reach.words());
            case POSSIBLY_EXTENDED -> note(reach.words());
            case CLIPPED -> speaksAgainst(reach.words());
        };
    }

    private static String energy(Stack stack) {
        return stack.acquisition().monoEnergyKeV().isPresent()
                ? String.format(
                        Locale.ROOT,
                        "virtual monoenergetic at %.0f keV",
                        stack.acquisition().monoEnergyKeV().getAsDouble())
                : "a tube voltage's own image";
    }

    private static double voxelMm3(VolumeGrid grid) {
        return grid.columnSpacingMm() * grid.rowSpacingMm() * grid.pitchMm().orElse(Double.POSITIVE_INFINITY);
    }

    private static String voxelWords(Stack stack) {
        return String.format(
                Locale.ROOT,
                "voxels of %.3g × %.3g × %.3g mm",
                stack.grid().columnSpacingMm(),
                stack.grid().rowSpacingMm(),
                stack.grid().pitchMm().orElse(Double.NaN));
    }
}
