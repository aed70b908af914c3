package org.holdfast.statistics;

/**
 * The 95 % score interval of a proportion.
 *
 * <p>With p = hits / n and z = 1.959964 (the 97.5 % quantile of the standard normal distribution): centre
 * (p + z²/2n) / (1 + z²/n), half width z √(p(1 − p)/n + z²/4n²) / (1 + z²/n). Stays within [0, 1] and has a width also for
 * 0 or n hits. Takes the trials for independent.
 *
 * <p>Source: Wilson EB. Probable inference, the law of succession, and statistical inference. J Am Stat Assoc
 * 1927;22:209–212.
 *
 * @param hits number of hits, 0 to n
 * @param n number of trials, at least 1
 */
public record WilsonInterval(int hits, int n) {

    private static final double Z = 1.959963984540054;

    public WilsonInterval {
        if (n < 1 || hits < 0 || hits > n) {
            throw new IllegalArgumentException("a share needs 0 ≤ hits ≤ n and n ≥ 1, got " + hits + " hits of " + n);
        }
    }

    /** hits / n. */
    public double share() {
        return (double) hits / n;
    }

    /** Lower limit, in [0, share]. */
    public double lower() {
        return Math.max(0, centre() - halfWidth());
    }

    /** Upper limit, in [share, 1]. */
    public double upper() {
        return Math.min(1, centre() + halfWidth());
    }

    private double centre() {
        return (share() + Z * Z / (2 * n)) / (1 + Z * Z / n);
    }

    private double halfWidth() {
        double variance = share() * (1 - share()) / n + Z * Z / (4.0 * n * n);
        return Z * Math.sqrt(variance) / (1 + Z * Z / n);
    }
}
