package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Material;
import org.holdfast.progress.Progress;

/** Contact by fit against the truth of simulated faces (analytic phantom); a part of the validation of contact. */
final class ContactFitRows {

    // Source: measurement definitions, section 8, contact by fit, phantom (a): bias 1 point, limits ± 3 points.
    private static final ValidationRow.Goal GOAL = new ValidationRow.Goal(0.01, 0.03);

    private ContactFitRows() {}

    /**
     * The rows.
     *
     * @param scenes scenes of the goal set with a porous face; the others are shares of it
     * @param shift added to every seed
     */
    static List<ValidationRow> of(int scenes, long shift, Progress progress) {
        List<ValidationRow> rows = new ArrayList<>();
        rows.addAll(agreement(
                kind("contact by fit (goal set)", Material.TITANIUM_POROUS, false, shift + 11_000),
                scenes,
                Optional.of(GOAL),
                progress.part(0, 0.5)));
        rows.addAll(agreement(
                kind("contact by fit (goal set)", Material.TITANIUM_SOLID, false, shift + 12_000),
                scenes / 2,
                Optional.of(GOAL),
                progress.part(0.5, 0.75)));
        rows.addAll(agreement(
                kind("contact by fit (stress set)", Material.TITANIUM_POROUS, true, shift + 13_000),
                Math.max(4, scenes / 4),
                Optional.empty(),
                progress.part(0.75, 0.87)));
        FitSeries narrow = FitSeries.run(
                new FitSeries.Kind(
                        "contact by fit minus true contact (gaps under 1.2 mm)",
                        Material.TITANIUM_POROUS,
                        ContactScene.Conditions.GOAL_SET,
                        ContactScene.Gaps.NARROW,
                        shift + 14_000),
                Math.max(4, scenes / 4),
                progress.part(0.87, 1));
        rows.add(row(
                "contact by fit minus true contact (gaps under 1.2 mm)",
                Material.TITANIUM_POROUS,
                narrow.overTrueContact,
                0,
                Optional.empty()));
        return rows;
    }

    static FitSeries.Kind kind(String name, Material material, boolean isStress, long seed) {
        return new FitSeries.Kind(
                name,
                material,
                isStress ? ContactScene.Conditions.STRESS_SET : ContactScene.Conditions.GOAL_SET,
                ContactScene.Gaps.LARGE_AREAS,
                seed);
    }

    private static List<ValidationRow> agreement(
            FitSeries.Kind kind, int scenes, Optional<ValidationRow.Goal> goal, Progress progress) {
        FitSeries series = FitSeries.run(kind, scenes, progress);
        return List.of(
                row(
                        kind.name() + ", faces across the table",
                        kind.material(),
                        series.contactAcross,
                        series.notStatedAcross,
                        goal),
                row(
                        kind.name() + ", faces along the table",
                        kind.material(),
                        series.contactAlong,
                        series.notStatedAlong,
                        goal));
    }

    static ValidationRow row(
            String name,
            Material material,
            List<Double> differences,
            int notApplicable,
            Optional<ValidationRow.Goal> goal) {
        return ValidationRow.of(
                name,
                "analytic",
                material.word().replace('-', ' '),
                differences.stream().mapToDouble(d -> d).toArray(),
                notApplicable,
                goal);
    }
}
