package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.app.ValidationGoals;

/** Validation rows in words. */
final class ValidationWords {

    private static final int COLUMNS = 100;

    private ValidationWords() {}

    static List<String> lines(ValidationGoals goals) {
        TextTable table = new TextTable(
                List.of("measure", "metal", "n", "not\nappl.", "bias or\nshare", "95 %", "goal", "reached"));
        for (ValidationGoals.Row row : goals.rows()) {
            table.add(List.of(
                    row.measure(),
                    row.metal(),
                    String.valueOf(row.n()),
                    String.valueOf(row.notApplicable()),
                    value(row, row.bias(), goals.subject()),
                    value(row, row.lower(), goals.subject()) + " to " + value(row, row.upper(), goals.subject()),
                    goal(row, goals.subject()),
                    row.reached().map(r -> r ? "yes" : "NO").orElse("")));
        }
        List<String> lines = new ArrayList<>();
        lines.add("Against known truth (analytic phantom): " + goals.subject().words());
        lines.add("");
        lines.addAll(table.lines());
        lines.add("");
        lines.add(Wrapping.wrap(
                "Estimate minus truth: its mean and mean ± 1.96 SD, "
                        + (goals.subject().isFraction() ? "in points of 100" : "in the unit that the measure names")
                        + "; a share with %: its Wilson interval. n: what entered; not appl.: what the estimator itself"
                        + " refused.",
                COLUMNS));
        return lines;
    }

    private static String goal(ValidationGoals.Row row, ValidationGoals.Subject subject) {
        if (row.goalUpper().isEmpty()) {
            return "none";
        }
        double upper = row.goalUpper().getAsDouble();
        if (!row.isShare()) {
            String form = subject.isFraction() ? "%.0f / ±%.0f" : "%.2g / ±%.2g";
            double scale = subject.isFraction() ? 100 : 1;
            return String.format(Locale.ROOT, form, scale * row.goalBias().orElseThrow(), scale * upper);
        }
        double lower = row.goalLower().orElseThrow();
        if (upper >= 1) {
            return String.format(Locale.ROOT, "≥ %.0f %%", 100 * lower);
        }
        return lower <= 0
                ? String.format(Locale.ROOT, "≤ %.0f %%", 100 * upper)
                : String.format(Locale.ROOT, "%.0f to %.0f %%", 100 * lower, 100 * upper);
    }

    private static String value(ValidationGoals.Row row, OptionalDouble value, ValidationGoals.Subject subject) {
        if (value.isEmpty()) {
            return "not stated";
        }
        if (row.isShare()) {
            return String.format(Locale.ROOT, "%.1f %%", 100 * value.getAsDouble());
        }
        return subject.isFraction()
                ? String.format(Locale.ROOT, "%+.2f", 100 * value.getAsDouble())
                : String.format(Locale.ROOT, "%+.3f", value.getAsDouble());
    }
}
