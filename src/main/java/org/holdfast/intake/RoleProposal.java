package org.holdfast.intake;

import static org.holdfast.intake.RoleReason.note;
import static org.holdfast.intake.RoleReason.speaksAgainst;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.holdfast.intake.RoleReason.Bearing;
import org.holdfast.intake.SeriesUse.ChosenBy;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.PixelScale;

/** Proposes what each series of an exam is used for: the one best stack is measured, few confirm, the rest is viewed. */
final class RoleProposal {

    /** Projections of other parts of the body. */
    private static final Set<String> ODD_RADIOGRAPHS = Set.of("MG", "IO", "PX");

    /** Codes of what keeps pictures out of stacks. */
    private static final Set<String> WHY_NO_STACK = Set.of(
            "NOT_AN_IMAGE",
            "PIXELS_UNUSABLE",
            "COLOUR_IMAGE",
            "SCREEN_CAPTURE",
            "LOCALIZER",
            "RENDERED_IMAGE",
            "FRAMES_NOT_DESCRIBED",
            "NOT_CROSS_SECTIONAL",
            "NO_GEOMETRY",
            "SEVERAL_IMAGES_AT_ONE_POSITION",
            "RADIOGRAPH");

    private final StackPreference preference;

    RoleProposal(Function<Stack, ScaleReach> reach) {
        this.preference = new StackPreference(reach);
    }

    /** The uses of all series: measured, then confirming, then viewed; in the order of the series within each. */
    List<SeriesUse> uses(List<Series> ofExam) {
        Optional<Stack> best = ofExam.stream()
                .flatMap(s -> s.stacks().stream())
                .filter(s -> s.whyNoHu().isEmpty() && s.grid().slices() > 1)
                .min(preference.bestFirst());
        List<SeriesUse> out = new ArrayList<>();
        for (Series series : ofExam) {
            if (series.stacks().isEmpty()) {
                out.add(picture(series));
            }
            for (Stack stack : series.stacks()) {
                out.add(stackUse(series, stack, best));
            }
        }
        out.sort(Comparator.comparing(SeriesUse::role));
        return out;
    }

    private SeriesUse stackUse(Series series, Stack stack, Optional<Stack> best) {
        List<RoleReason> reasons = new ArrayList<>();
        ExamRole role = ExamRole.VIEW;
        if (stack.whyNoHu().isPresent()) {
            reasons.add(speaksAgainst("no HU: " + stack.whyNoHu().get()));
        } else if (stack.grid().slices() < 2) {
            reasons.add(speaksAgainst("a single slice"));
        } else if (stack == best.orElseThrow()) {
            role = ExamRole.MEASURE;
            reasons.addAll(preference.reasons(stack));
        } else {
            role = confirms(stack, best.get()) ? ExamRole.CONFIRM : ExamRole.VIEW;
            reasons.add(preference.whyNot(stack, best.get()));
            reasons.addAll(besides(stack, best.get()));
        }
        return new SeriesUse(
                series, Optional.of(stack), SeriesName.of(series, stack), role, reasons, ChosenBy.PROPOSAL);
    }

    /** What is the same as in the measured one goes without saying. */
    private List<RoleReason> besides(Stack stack, Stack best) {
        List<RoleReason> reasons = new ArrayList<>();
        if (isSameGrid(stack, best)) {
            reasons.add(note("same slices as the measured one"));
        }
        List<RoleReason> shared = preference.reasons(best);
        preference.reasons(stack).stream()
                .filter(reason -> reason.bearing() == Bearing.AGAINST && !shared.contains(reason))
                .forEach(reasons::add);
        return reasons;
    }

    /** An artefact-reduced series says something about a break only beside the scan that it was made of. */
    private static boolean confirms(Stack stack, Stack best) {
        return stack.acquisition().artefactReduction() == Known.YES
                && best.acquisition().artefactReduction() != Known.YES
                && isSameScan(stack, best);
    }

    private static boolean isSameScan(Stack a, Stack b) {
        String study = a.slices().get(0).identity().studyInstanceUid();
        boolean sameStudy =
                !study.isEmpty() && study.equals(b.slices().get(0).identity().studyInstanceUid());
        boolean sameSpace =
                !a.frameOfReferenceUid().isEmpty() && a.frameOfReferenceUid().equals(b.frameOfReferenceUid());
        return sameSpace || sameStudy;
    }

    private static boolean isSameGrid(Stack a, Stack b) {
        return a.grid().slices() == b.grid().slices()
                && a.grid().sliceOrigin(0).distanceTo(b.grid().sliceOrigin(0)) <= Duplicates.SAME_POSITION_MM
                && a.slices().get(0).plane().isParallelTo(b.slices().get(0).plane());
    }

    private static SeriesUse picture(Series series) {
        boolean radiograph = series.kind() == SeriesKind.RADIOGRAPH && !ODD_RADIOGRAPHS.contains(series.modality());
        List<RoleReason> reasons = new ArrayList<>();
        if (radiograph) {
            reasons.add(note("angles, ratios and breaks"));
            reasons.add(scale(series.files().get(0).scale()));
        } else {
            series.findings().stream().map(f -> note(f.text())).distinct().forEach(reasons::add);
        }
        if (reasons.isEmpty()) {
            reasons.add(note("a picture, never a stack"));
        }
        return new SeriesUse(
                series,
                Optional.empty(),
                SeriesName.of(series),
                radiograph ? ExamRole.CONFIRM : ExamRole.VIEW,
                reasons,
                ChosenBy.PROPOSAL);
    }

    private static RoleReason scale(PixelScale scale) {
        String words = "scale: " + scale.words();
        boolean some = scale.kind().isInPatient() || scale.kind() == PixelScale.Kind.MAGNIFIED;
        return some ? note(words) : speaksAgainst(words);
    }
}
