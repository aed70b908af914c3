package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.measure.LucencySettings;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewZones;
import org.holdfast.phantom.HuScale;
import org.holdfast.progress.Progress;

/**
 * The zone round a screw by fit against the truth of simulated screws (analytic phantom): solid titanium, smooth, tilted
 * against the grid.
 *
 * <p>Widths are drawn evenly from 0 to 3 mm, every sixth scene has none; a third of the zones have a rim; scales with and
 * without ceiling take turns. Unit of the width rows: stations that are assessed, with the truth of their whole
 * circumference; of the calls: scenes. Truths within 0.15 mm of the limit are counted apart in the calls.
 */
public final class LucencyValidation {

    // Source: measurement definitions, section 8, phantom (a): lucent width by station, bias 0.1 mm, limits ± 0.2 mm.
    private static final ValidationRow.Goal WIDTH = new ValidationRow.Goal(0.1, 0.2);
    // Source: the same, truths inside ± 1.96 SE: 92 to 98 %.
    private static final ValidationRow.ShareGoal INSIDE = ValidationRow.ShareGoal.between(0.92, 0.98);

    private static final String PHANTOM = "analytic";
    private static final String METAL = "titanium solid";
    private static final long DRAW_STRIDE = 50_000;
    private static final double WIDEST_MM = 3;
    private static final int NONE_EVERY = 6;
    private static final int RIM_EVERY = 3;
    private static final double APART_MM = 0.15;
    private static final double NORMAL_95 = 1.96;
    /** Golden ratio's fraction: steps by it fill an interval evenly for any number of scenes. */
    private static final double EVEN_STEP = 0.6180339887498949;

    private LucencyValidation() {}

    /**
     * How much is run.
     *
     * @param goalScenes scenes of the goal set with a concentric zone
     * @param togglingScenes scenes of the goal set whose hole lies askew
     * @param stressScenes scenes of the stress set
     */
    record Extent(int goalScenes, int togglingScenes, int stressScenes) {}

    /** Every scene. */
    public static List<ValidationRow> full(int draw, Progress progress) {
        return run(new Extent(60, 8, 12), draw, progress);
    }

    /** A share of the scenes, for a test suite. */
    public static List<ValidationRow> quick(int draw, Progress progress) {
        return run(new Extent(10, 2, 2), draw, progress);
    }

    static List<ValidationRow> run(Extent extent, int draw, Progress progress) {
        long shift = DRAW_STRIDE * draw;
        double scenes = extent.goalScenes() + extent.togglingScenes() + extent.stressScenes();
        double first = extent.goalScenes() / scenes;
        double second = first + extent.togglingScenes() / scenes;
        List<ValidationRow> rows = new ArrayList<>();
        Widths goal =
                widths(ContactScene.Conditions.GOAL_SET, extent.goalScenes(), shift + 20_000, progress.part(0, first));
        rows.add(goal.width("lucent width by station, 0 to 3 mm (goal set)", 0, WIDEST_MM, Optional.of(WIDTH)));
        rows.add(goal.width("of these under 0.5 mm", 0, 0.5, Optional.empty()));
        rows.add(goal.width("of these 0.5 to 1.5 mm", 0.5, 1.5, Optional.empty()));
        rows.add(goal.width("of these 1.5 to 3 mm", 1.5, WIDEST_MM, Optional.empty()));
        rows.add(ValidationRow.ofShare(
                "truths inside ± 1.96 SE, by station",
                PHANTOM,
                METAL,
                goal.inside,
                goal.n(),
                goal.notAssessed,
                INSIDE));
        rows.add(ValidationRow.ofShare(
                "zone over 1 mm called, true mean over 1.15 mm",
                PHANTOM,
                METAL,
                goal.overCalled,
                goal.over,
                goal.overNotAssessed));
        rows.add(ValidationRow.ofShare(
                "zone over 1 mm called, true mean under 0.85 mm",
                PHANTOM,
                METAL,
                goal.underCalled,
                goal.under,
                goal.underNotAssessed));
        rows.add(toggling(extent.togglingScenes(), shift + 21_000, progress.part(first, second)));
        Widths stress = widths(
                ContactScene.Conditions.STRESS_SET, extent.stressScenes(), shift + 22_000, progress.part(second, 1));
        rows.add(stress.width("lucent width by station, 0 to 3 mm (stress set)", 0, WIDEST_MM, Optional.empty()));
        rows.add(ValidationRow.ofShare(
                "truths inside ± 1.96 SE, by station (stress set)",
                PHANTOM,
                METAL,
                stress.inside,
                stress.n(),
                stress.notAssessed));
        return rows;
    }

    /** What a set of concentric scenes gave. */
    private static final class Widths {
        private final List<Double> truths = new ArrayList<>();
        private final List<Double> differences = new ArrayList<>();
        private int inside;
        private int notAssessed;
        private int over;
        private int overCalled;
        private int overNotAssessed;
        private int under;
        private int underCalled;
        private int underNotAssessed;

        int n() {
            return differences.size();
        }

        void add(ScrewLucency.Zone zone, double truth) {
            for (ScrewLucency.Station station : zone.stations()) {
                if (station.meanMm().value().isEmpty()) {
                    notAssessed++;
                    continue;
                }
                double difference = station.meanMm().value().getAsDouble() - truth;
                truths.add(truth);
                differences.add(difference);
                double se = station.seMm().value().orElseThrow();
                inside += Math.abs(difference) <= NORMAL_95 * se ? 1 : 0;
            }
            call(zone, truth);
        }

        private void call(ScrewLucency.Zone zone, double truth) {
            double limit = LucencySettings.withDefaults().limitMm();
            boolean isAssessed = zone.largestMeanMm().value().isPresent();
            if (truth > limit + APART_MM) {
                over += isAssessed ? 1 : 0;
                overNotAssessed += isAssessed ? 0 : 1;
                overCalled += isAssessed && zone.isOverLimit() ? 1 : 0;
            } else if (truth < limit - APART_MM) {
                under += isAssessed ? 1 : 0;
                underNotAssessed += isAssessed ? 0 : 1;
                underCalled += isAssessed && zone.isOverLimit() ? 1 : 0;
            }
        }

        ValidationRow width(String name, double from, double to, Optional<ValidationRow.Goal> goal) {
            List<Double> taken = new ArrayList<>();
            for (int n = 0; n < truths.size(); n++) {
                if (truths.get(n) >= from && (truths.get(n) < to || to == WIDEST_MM)) {
                    taken.add(differences.get(n));
                }
            }
            return ValidationRow.of(
                    name,
                    PHANTOM,
                    METAL,
                    taken.stream().mapToDouble(d -> d).toArray(),
                    from == 0 && to == WIDEST_MM ? notAssessed : 0,
                    goal);
        }
    }

    private static Widths widths(ContactScene.Conditions conditions, int scenes, long seed, Progress progress) {
        Widths widths = new Widths();
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, "screws with a zone");
            double truth = n % NONE_EVERY == 0 ? 0 : WIDEST_MM * ((n + 1) * EVEN_STEP % 1);
            LucencyScene scene = LucencyScene.draw(
                    conditions, LucencyScene.Zone.CONCENTRIC, truth, n % RIM_EVERY == 1, scale(n), seed + n);
            widths.add(zone(scene), truth);
        }
        return widths;
    }

    private static HuScale scale(int n) {
        return n % 2 == 0 ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071;
    }

    /** Cells of 30° × 3 mm where the hole lies askew, so that the zone differs from one to the next. */
    private static ValidationRow toggling(int scenes, long seed, Progress progress) {
        List<Double> differences = new ArrayList<>();
        int notAssessed = 0;
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, "toggling screws");
            double mean = 0.5 + 1.5 * ((n + 1) * EVEN_STEP % 1);
            LucencyScene scene = LucencyScene.draw(
                    ContactScene.Conditions.GOAL_SET, LucencyScene.Zone.TOGGLING, mean, false, scale(n), seed + n);
            for (ScrewLucency.Sector cell : zone(scene).sectors()) {
                if (cell.zoneMm().isEmpty()) {
                    notAssessed++;
                } else {
                    differences.add(cell.zoneMm().getAsDouble() - scene.trueWidthMm(cell));
                }
            }
        }
        return ValidationRow.of(
                "zone by sector of 30° × 3 mm, hole askew",
                PHANTOM,
                METAL,
                differences.stream().mapToDouble(d -> d).toArray(),
                notAssessed,
                Optional.empty());
    }

    private static ScrewLucency.Zone zone(LucencyScene scene) {
        Construct construct = scene.construct();
        return new ScrewZones(construct, construct.components().get(0), MeasurementSettings.withDefaults())
                .measureReference(scene.exam())
                .lucency()
                .value()
                .orElseThrow()
                .byFit()
                .value()
                .orElseThrow();
    }
}
