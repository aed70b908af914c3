package org.holdfast.validation;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.statistics.LimitsOfAgreement;

/**
 * One line of a validation: how far an estimator lies from the truth over a number of scenes.
 *
 * @param measure what was measured
 * @param phantom which kind of simulated scan
 * @param metal the implant's material
 * @param n scenes or samples that entered
 * @param notApplicable scenes in which the estimator said that it does not apply
 * @param bias mean of estimate − truth; empty if nothing entered
 * @param lower lower 95 % limit of estimate − truth (bias − 1.96 SD); empty for fewer than two
 * @param upper upper 95 % limit of estimate − truth (bias + 1.96 SD); empty for fewer than two
 * @param goal what is to be reached; empty where the row is printed without a goal
 */
public record ValidationRow(
        String measure,
        String phantom,
        String metal,
        int n,
        int notApplicable,
        OptionalDouble bias,
        OptionalDouble lower,
        OptionalDouble upper,
        Optional<Goal> goal) {

    /**
     * A goal of the measurement definitions.
     *
     * @param bias largest bias in either direction
     * @param limit the 95 % limits must lie in [−limit, limit]
     */
    public record Goal(double bias, double limit) {}

    public ValidationRow {
        Objects.requireNonNull(measure, "measure");
        Objects.requireNonNull(goal, "goal");
    }

    /** The row of a set of differences, estimate − truth. */
    static ValidationRow of(
            String measure,
            String phantom,
            String metal,
            double[] differences,
            int notApplicable,
            Optional<Goal> goal) {
        Optional<LimitsOfAgreement.Estimate> limits =
                LimitsOfAgreement.ofDifferences(differences) instanceof LimitsOfAgreement.Estimate estimate
                        ? Optional.of(estimate)
                        : Optional.empty();
        return new ValidationRow(
                measure,
                phantom,
                metal,
                differences.length,
                notApplicable,
                Arrays.stream(differences).average(),
                limits.map(l -> OptionalDouble.of(l.lower())).orElse(OptionalDouble.empty()),
                limits.map(l -> OptionalDouble.of(l.upper())).orElse(OptionalDouble.empty()),
                goal);
    }

    /** Whether the goal is reached; empty where there is none. A row with a goal and fewer than two scenes misses it. */
    public Optional<Boolean> reached() {
        return goal.map(g -> bias.isPresent()
                && lower.isPresent()
                && upper.isPresent()
                && Math.abs(bias.getAsDouble()) <= g.bias()
                && lower.getAsDouble() >= -g.limit()
                && upper.getAsDouble() <= g.limit());
    }
}
