package org.holdfast.validation;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.statistics.LimitsOfAgreement;
import org.holdfast.statistics.WilsonInterval;

/**
 * One line of a validation: how far an estimator lies from the truth over a number of scenes, or in which share of them
 * it does what it should.
 *
 * @param measure what was measured
 * @param phantom which kind of simulated scan
 * @param metal the implant's material
 * @param n scenes or samples that entered
 * @param notApplicable scenes in which the estimator said that it does not apply
 * @param bias mean of estimate − truth, or the share itself; empty if nothing entered
 * @param lower lower 95 % limit of estimate − truth (bias − 1.96 SD), empty for fewer than two; of a share its Wilson limit
 * @param upper upper 95 % limit of estimate − truth (bias + 1.96 SD), empty for fewer than two; of a share its Wilson limit
 * @param isShare whether the row is a share of n, not a set of differences
 * @param goal what differences are to reach; empty where the row is printed without a goal or is a share
 * @param shareGoal what a share is to reach; empty where the row is printed without a goal or is no share
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
        boolean isShare,
        Optional<Goal> goal,
        Optional<ShareGoal> shareGoal) {

    /**
     * A goal of the measurement definitions.
     *
     * @param bias largest bias in either direction
     * @param limit the 95 % limits must lie in [−limit, limit]
     */
    public record Goal(double bias, double limit) {}

    /**
     * A goal for a share; the share itself, not its interval, is held against it.
     *
     * @param lowest smallest share wanted, 0 where there is no such bound
     * @param highest largest share wanted, 1 where there is no such bound
     */
    public record ShareGoal(double lowest, double highest) {

        public ShareGoal {
            if (!(lowest >= 0 && highest <= 1 && lowest <= highest)) {
                throw new IllegalArgumentException(
                        "a goal for a share must lie in [0, 1], got [" + lowest + ", " + highest + "]");
            }
        }

        /** So much or more. */
        public static ShareGoal atLeast(double share) {
            return new ShareGoal(share, 1);
        }

        /** So much or less. */
        public static ShareGoal atMost(double share) {
            return new ShareGoal(0, share);
        }

        /** Neither less nor more, ends included. */
        public static ShareGoal between(double lowest, double highest) {
            return new ShareGoal(lowest, highest);
        }
    }

    public ValidationRow {
        Objects.requireNonNull(measure, "measure");
        Objects.requireNonNull(goal, "goal");
        Objects.requireNonNull(shareGoal, "shareGoal");
        if (isShare ? goal.isPresent() : shareGoal.isPresent()) {
            throw new IllegalArgumentException(
                    "a share takes a goal for shares, differences take one for differences: " + measure);
        }
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
                false,
                goal,
                Optional.empty());
    }

    /** The row of a share with a goal. */
    static ValidationRow ofShare(
            String measure, String phantom, String metal, int hits, int n, int notApplicable, ShareGoal goal) {
        return share(measure, phantom, metal, hits, n, notApplicable, Optional.of(goal));
    }

    /** The row of a share, printed without a goal. */
    static ValidationRow ofShare(String measure, String phantom, String metal, int hits, int n, int notApplicable) {
        return share(measure, phantom, metal, hits, n, notApplicable, Optional.empty());
    }

    private static ValidationRow share(
            String measure,
            String phantom,
            String metal,
            int hits,
            int n,
            int notApplicable,
            Optional<ShareGoal> goal) {
        Optional<WilsonInterval> wilson = n == 0 ? Optional.empty() : Optional.of(new WilsonInterval(hits, n));
        return new ValidationRow(
                measure,
                phantom,
                metal,
                n,
                notApplicable,
                wilson.map(w -> OptionalDouble.of(w.share())).orElse(OptionalDouble.empty()),
                wilson.map(w -> OptionalDouble.of(w.lower())).orElse(OptionalDouble.empty()),
                wilson.map(w -> OptionalDouble.of(w.upper())).orElse(OptionalDouble.empty()),
                true,
                Optional.empty(),
                goal);
    }

    /**
     * Whether the goal is reached; empty where there is none. A row with a goal misses it with fewer than two
     * differences, or with nothing to take a share of.
     */
    public Optional<Boolean> reached() {
        return isShare ? shareGoal.map(this::isWithin) : goal.map(this::isWithin);
    }

    private boolean isWithin(ShareGoal g) {
        return bias.isPresent() && bias.getAsDouble() >= g.lowest() && bias.getAsDouble() <= g.highest();
    }

    private boolean isWithin(Goal g) {
        return bias.isPresent()
                && lower.isPresent()
                && upper.isPresent()
                && Math.abs(bias.getAsDouble()) <= g.bias()
                && lower.getAsDouble() >= -g.limit()
                && upper.getAsDouble() <= g.limit();
    }
}
