package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.progress.Progress;
import org.holdfast.validation.BreakValidation;
import org.holdfast.validation.ChangeValidation;
import org.holdfast.validation.ContactValidation;
import org.holdfast.validation.GapValidation;
import org.holdfast.validation.LucencyValidation;
import org.holdfast.validation.MigrationValidation;
import org.holdfast.validation.RegistrationValidation;
import org.holdfast.validation.ValidationRow;

/**
 * Use case: do the estimators reach their goals on simulated scans of known truth?
 *
 * @param subject what was validated
 * @param rows one a set of scenes
 */
public record ValidationGoals(Subject subject, List<Row> rows) {

    /** What can be validated. */
    public enum Subject {
        CONTACT("interface contact on simulated faces", true, ContactValidation::quick, ContactValidation::full),
        GAP("gaps beside simulated faces", false, GapValidation::quick, GapValidation::full),
        LUCENCY("zones round simulated screws", false, LucencyValidation::quick, LucencyValidation::full),
        CHANGE("change maps and bone in pores", true, ChangeValidation::quick, ChangeValidation::full),
        BREAKS("breaks of simulated rods and screws", false, BreakValidation::quick, BreakValidation::full),
        REGISTRATION(
                "poses found on simulated subjects",
                false,
                RegistrationValidation::quick,
                RegistrationValidation::full),
        MIGRATION("migration on simulated subjects", false, MigrationValidation::quick, MigrationValidation::full);

        private final String words;
        private final boolean isFraction;
        private final Scenes quick;
        private final Scenes full;

        Subject(String words, boolean isFraction, Scenes quick, Scenes full) {
            this.words = words;
            this.isFraction = isFraction;
            this.quick = quick;
            this.full = full;
        }

        /** What it is, in words. */
        public String words() {
            return words;
        }

        /** Whether its differences are of fractions, so that they are told in points. */
        public boolean isFraction() {
            return isFraction;
        }

        /** Its name on a command line. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** A set of seeded scenes. */
    private interface Scenes {

        List<ValidationRow> run(int draw, Progress progress);
    }

    /** How many scenes are run. */
    public enum Extent {
        QUICK,
        FULL
    }

    /**
     * One set of scenes: differences, estimate − truth, in the unit that the measure names, or a share of n.
     *
     * @param measure what was measured
     * @param phantom kind of simulated scan
     * @param metal the implant's material
     * @param n scenes that entered
     * @param notApplicable scenes in which the estimator said that it does not apply
     * @param isShare whether it is a share of n
     * @param bias mean difference, or the share
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
            boolean isShare,
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
                    row.isShare(),
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

    public ValidationGoals {
        rows = List.copyOf(rows);
    }

    /**
     * Runs the scenes.
     *
     * @param draw which draw of the scenes: 0 is the one of the documentation, any other number gives other scenes
     */
    public static ValidationGoals check(Subject subject, Extent extent, int draw, Progress progress) {
        Scenes scenes = extent == Extent.QUICK ? subject.quick : subject.full;
        return new ValidationGoals(
                subject, scenes.run(draw, progress).stream().map(Row::of).toList());
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
            node.put("share", row.isShare);
            JsonDocument.number(node, "bias", row.bias, "nothing entered");
            JsonDocument.number(node, "lower", row.lower, "fewer than two scenes entered");
            JsonDocument.number(node, "upper", row.upper, "fewer than two scenes entered");
            JsonDocument.number(
                    node, "goalBias", row.goalBias, row.isShare ? "a share has no bias" : "row without goal");
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
