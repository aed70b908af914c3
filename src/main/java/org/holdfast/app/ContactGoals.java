package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.progress.Progress;
import org.holdfast.validation.ContactValidation;
import org.holdfast.validation.ValidationRow;

/**
 * Use case: does contact by threshold reach its goals on simulated faces?
 *
 * @param rows one a set of scenes
 */
public record ContactGoals(List<Row> rows) {

    /** How many scenes are run. */
    public enum Extent {
        QUICK,
        FULL
    }

    /**
     * One set of scenes; differences are estimate − truth as fractions.
     *
     * @param measure what was measured
     * @param phantom kind of simulated scan
     * @param metal the implant's material
     * @param n scenes that entered
     * @param notApplicable scenes in which the estimator said that it does not apply
     * @param bias mean difference
     * @param lower lower 95 % limit
     * @param upper upper 95 % limit
     * @param goalBias largest bias wanted in either direction; empty for a row without goal
     * @param goalLower lowest lower limit wanted; for a share the lowest share
     * @param goalUpper highest upper limit wanted; for a share the highest share
     * @param reached whether the goal is reached; empty for a row without goal
     */
    public record Row(
            String measure,
            String phantom,
            String metal,
            int n,
            int notApplicable,
            OptionalDouble bias,
            OptionalDouble lower,
            OptionalDouble upper,
            OptionalDouble goalBias,
            OptionalDouble goalLower,
            OptionalDouble goalUpper,
            Optional<Boolean> reached) {

        private static Row of(ValidationRow row) {
            return new Row(
                    row.measure(),
                    row.phantom(),
                    row.metal(),
                    row.n(),
                    row.notApplicable(),
                    row.bias(),
                    row.lower(),
                    row.upper(),
                    row.goal().isPresent() ? OptionalDouble.of(row.goal().get().bias()) : OptionalDouble.empty(),
                    goalLower(row),
                    goalUpper(row),
                    row.reached());
        }

        private static OptionalDouble goalLower(ValidationRow row) {
            if (row.shareGoal().isPresent()) {
                return OptionalDouble.of(row.shareGoal().get().lowest());
            }
            return row.goal().isPresent() ? OptionalDouble.of(-row.goal().get().limit()) : OptionalDouble.empty();
        }

        private static OptionalDouble goalUpper(ValidationRow row) {
            if (row.shareGoal().isPresent()) {
                return OptionalDouble.of(row.shareGoal().get().highest());
            }
            return row.goal().isPresent() ? OptionalDouble.of(row.goal().get().limit()) : OptionalDouble.empty();
        }
    }

    public ContactGoals {
        rows = List.copyOf(rows);
    }

    /**
     * Runs the scenes.
     *
     * @param draw which draw of the scenes: 0 is the one of the documentation, any other number gives other scenes
     */
    public static ContactGoals check(Extent extent, int draw, Progress progress) {
        List<ValidationRow> rows = extent == Extent.QUICK
                ? ContactValidation.quick(draw, progress)
                : ContactValidation.full(draw, progress);
        return new ContactGoals(rows.stream().map(Row::of).toList());
    }

    /** Whether every row that has a goal reaches it. */
    public boolean areReached() {
        return rows.stream().allMatch(row -> row.reached().orElse(true));
    }

    /** The rows as a JSON document. */
    public String document() {
        ObjectNode root = JsonDocument.empty();
        root.put("caution", Caution.TEXT);
        root.put("software", Software.running().toString());
        root.put("formatVersion", 1);
        var array = root.putArray("rows");
        for (Row row : rows) {
            ObjectNode node = array.addObject();
            node.put("measure", row.measure);
            node.put("phantom", row.phantom);
            node.put("metal", row.metal);
            node.put("n", row.n);
            node.put("notApplicable", row.notApplicable);
            JsonDocument.number(node, "bias", row.bias, "no scene entered");
            JsonDocument.number(node, "lower", row.lower, "fewer than two scenes entered");
            JsonDocument.number(node, "upper", row.upper, "fewer than two scenes entered");
            JsonDocument.number(node, "goalBias", row.goalBias, "row without goal");
            JsonDocument.number(node, "goalLower", row.goalLower, "row without goal");
            JsonDocument.number(node, "goalUpper", row.goalUpper, "row without goal");
            if (row.reached.isPresent()) {
                node.put("reached", row.reached.get());
            } else {
                JsonDocument.absent(node, "reached", "row without goal");
            }
        }
        return JsonDocument.text(root);
    }
}
