package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.app.ContactGoals;

/** Validation rows in words. */
final class ValidationWords {

    private ValidationWords() {}

    static List<String> lines(ContactGoals goals) {
        TextTable table = new TextTable(List.of(
                "measure",
                "metal",
                "scenes",
                "not applicable",
                "bias, points",
                "95 % limits, points",
                "goal",
                "reached"));
        for (ContactGoals.Row row : goals.rows()) {
            table.add(List.of(
                    row.measure(),
                    row.metal(),
                    String.valueOf(row.n()),
                    String.valueOf(row.notApplicable()),
                    points(row.bias()),
                    points(row.lower()) + " to " + points(row.upper()),
                    row.goalBias().isPresent()
                            ? String.format(
                                    Locale.ROOT,
                                    "%.0f / ±%.0f",
                                    100 * row.goalBias().getAsDouble(),
                                    100 * row.goalUpper().orElseThrow())
                            : "none",
                    row.reached().map(r -> r ? "yes" : "NO").orElse("")));
        }
        List<String> lines = new ArrayList<>();
        lines.add("Estimate minus truth on simulated scans (analytic phantom)");
        lines.add("");
        lines.addAll(table.lines());
        return lines;
    }

    private static String points(OptionalDouble fraction) {
        return fraction.isPresent() ? String.format(Locale.ROOT, "%+.2f", 100 * fraction.getAsDouble()) : "not stated";
    }
}
