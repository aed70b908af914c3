package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Material;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Tissue;
import org.holdfast.phantom.HuScale;
import org.holdfast.progress.Progress;

/**
 * Widths of gaps, their standard errors and the smallest gap that is told from contact, against the truth of simulated
 * faces (analytic phantom).
 *
 * <p>Unit of the widths: samples of the face at least 1.5 mm from a step between two widths; those nearer to one have a
 * row of their own, without goal, since there the width of a plane gap is not defined within the blur. Unit of the
 * detection limit: scenes, each judged at the middle of its face. Truths inside the standard error are counted from gaps
 * of 0.3 mm on, since a fitted gap cannot be under 0: bone on the implant is missed to one side only.
 */
public final class GapValidation {

    // Source: measurement definitions, section 8, gap width by threshold and by fit, phantom (a): 0.1 / ± 0.3 mm.
    private static final ValidationRow.Goal WIDTH = new ValidationRow.Goal(0.1, 0.3);
    // Source: the same, truths inside ± 1.96 SE, phantom (a): 92 to 98 %.
    private static final ValidationRow.ShareGoal INSIDE = ValidationRow.ShareGoal.between(0.92, 0.98);
    // Source: the same, detection limits, phantom (a): at least 97 % found at 1.2 × limit, at most 2 % called at 0.
    private static final ValidationRow.ShareGoal FOUND = ValidationRow.ShareGoal.atLeast(0.97);
    private static final ValidationRow.ShareGoal FALSE_CALLS = ValidationRow.ShareGoal.atMost(0.02);

    private static final long DRAW_STRIDE = 50_000;
    private static final double THRESHOLD_FROM_MM = 1.5;

    private GapValidation() {}

    /**
     * How much is run.
     *
     * @param widthScenes scenes of the goal set with a porous face, for widths
     * @param limitScenes scenes for the detection limit
     */
    record Extent(int widthScenes, int limitScenes) {}

    /** Every scene. */
    public static List<ValidationRow> full(int draw, Progress progress) {
        return run(new Extent(36, 200), draw, progress);
    }

    /** A share of the scenes, for a test suite. */
    public static List<ValidationRow> quick(int draw, Progress progress) {
        return run(new Extent(6, 12), draw, progress);
    }

    static List<ValidationRow> run(Extent extent, int draw, Progress progress) {
        long shift = DRAW_STRIDE * draw;
        List<ValidationRow> rows = new ArrayList<>();
        rows.addAll(widths(
                "goal set",
                Material.TITANIUM_POROUS,
                false,
                shift + 21_000,
                extent.widthScenes(),
                progress.part(0, 0.3)));
        rows.addAll(widths(
                "goal set",
                Material.TITANIUM_SOLID,
                false,
                shift + 22_000,
                extent.widthScenes() / 2,
                progress.part(0.3, 0.45)));
        rows.addAll(widths(
                "stress set",
                Material.TITANIUM_POROUS,
                true,
                shift + 23_000,
                Math.max(2, extent.widthScenes() / 4),
                progress.part(0.45, 0.5)));
        rows.add(byThreshold(extent.widthScenes(), shift + 24_000, progress.part(0.5, 0.65)));
        rows.addAll(limits(extent.limitScenes(), shift + 25_000, progress.part(0.65, 1)));
        return rows;
    }

    private static List<ValidationRow> widths(
            String set, Material material, boolean isStress, long seed, int scenes, Progress progress) {
        String name = "gap 0.3 to 1.5 mm by fit (" + set + ")";
        FitSeries series = FitSeries.run(ContactFitRows.kind(name, material, isStress, seed), scenes, progress);
        String metal = material.word().replace('-', ' ');
        String inside = "gaps of 0.3 mm and more inside ± 1.96 SE (" + set + ")";
        return List.of(
                ContactFitRows.row(name, material, series.gaps, 0, isStress ? Optional.empty() : Optional.of(WIDTH)),
                ContactFitRows.row(
                        name + ", under 1.5 mm from a step", material, series.gapsNearSteps, 0, Optional.empty()),
                isStress
                        ? ValidationRow.ofShare(inside, "analytic", metal, series.truthsInside, series.truths, 0)
                        : ValidationRow.ofShare(
                                inside, "analytic", metal, series.truthsInside, series.truths, 0, INSIDE),
                ValidationRow.ofShare(
                        "gaps under 0.3 mm inside ± 1.96 SE (" + set + ")",
                        "analytic",
                        metal,
                        series.touchingInside,
                        series.touching,
                        0));
    }

    private static ValidationRow byThreshold(int scenes, long seed, Progress progress) {
        String name = "gap of 1.5 mm and more by threshold (goal set)";
        List<Double> differences = new ArrayList<>();
        int notApplicable = 0;
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, name);
            ContactScene scene = ContactScene.draw(
                    ContactScene.Conditions.GOAL_SET,
                    ContactScene.Gaps.LARGE_AREAS,
                    Material.TITANIUM_POROUS,
                    n % 2 == 1 ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    0.3,
                    seed + n);
            ThresholdContact contact = ContactValidation.measure(scene, FitSeries.settings());
            if (contact.fraction().value().isEmpty()) {
                notApplicable++;
                continue;
            }
            for (SampleReading reading : contact.readings()) {
                double u = reading.sample().uMm();
                double v = reading.sample().vMm();
                double gap = scene.scene().trueGapMm(u, v);
                boolean isClear = scene.scene().pattern().distanceFromChangeMm(u, v) >= FitSeries.FROM_STEP_MM;
                if (isClear && gap >= THRESHOLD_FROM_MM && reading.tissue() == Tissue.GAP) {
                    differences.add(reading.gapMm().orElseThrow() - gap);
                }
            }
        }
        return ContactFitRows.row(name, Material.TITANIUM_POROUS, differences, notApplicable, Optional.of(WIDTH));
    }

    /** Each scene is scanned without a gap, which gives its limit, and again with a gap of 1.2 times that. */
    private static List<ValidationRow> limits(int scenes, long seed, Progress progress) {
        int notStated = 0;
        int stated = 0;
        int found = 0;
        int falseCalls = 0;
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, "smallest visible gap");
            LimitScene.Answer answer = LimitScene.draw(seed + n).ask();
            if (answer == LimitScene.Answer.NOT_STATED) {
                notStated++;
                continue;
            }
            stated++;
            found += answer.isFound() ? 1 : 0;
            falseCalls += answer.isFalselyCalled() ? 1 : 0;
        }
        String metal = Material.TITANIUM_POROUS.word().replace('-', ' ');
        return List.of(
                ValidationRow.ofShare(
                        "gap of 1.2 × smallest visible gap called gap (goal set)",
                        "analytic",
                        metal,
                        found,
                        stated,
                        notStated,
                        FOUND),
                ValidationRow.ofShare(
                        "bone on the implant called gap (goal set)",
                        "analytic",
                        metal,
                        falseCalls,
                        stated,
                        notStated,
                        FALSE_CALLS));
    }
}
