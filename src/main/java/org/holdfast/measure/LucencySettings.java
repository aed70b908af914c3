package org.holdfast.measure;

import static org.holdfast.measure.SettingRange.requireWithin;

import java.util.Objects;

/**
 * Thresholds of the zone around a screw. Published rule: lucent zone over 1 mm (Wu et al., J Orthop Surg Res 2019;14:6).
 *
 * @param limitMm width of a zone that counts
 * @param comparison whether a zone of exactly the limit counts
 * @param judgedBy which width is held against the limit
 * @param rimHu a bone edge so much brighter than {@code rimDepthMm} further out is a sclerotic rim, HU
 * @param rimDepthMm see {@code rimHu}, mm
 * @param streakHu a sector so far under fluid is taken for a streak, HU
 */
public record LucencySettings(
        double limitMm, Comparison comparison, JudgedBy judgedBy, double rimHu, double rimDepthMm, double streakHu) {

    /** Whether the limit itself counts. */
    public enum Comparison {
        OVER,
        AT_LEAST
    }

    /** Which width is held against the limit. */
    public enum JudgedBy {
        CIRCUMFERENTIAL_MEAN,
        WIDEST_SECTOR
    }

    public LucencySettings {
        requireWithin("limitMm", limitMm, 0.1, 5);
        Objects.requireNonNull(comparison, "comparison");
        Objects.requireNonNull(judgedBy, "judgedBy");
        requireWithin("rimHu", rimHu, 10, 1000);
        requireWithin("rimDepthMm", rimDepthMm, 0.5, 6);
        requireWithin("streakHu", streakHu, 10, 1000);
    }

    /** The values of the measurement definitions. */
    public static LucencySettings withDefaults() {
        return new LucencySettings(1, Comparison.OVER, JudgedBy.CIRCUMFERENTIAL_MEAN, 100, 3, 100);
    }

    /** Whether a width counts under the rule; held against the limit to the hundredth of a millimetre that is printed. */
    public boolean isOver(double widthMm) {
        long width = Math.round(100 * widthMm);
        long limit = Math.round(100 * limitMm);
        return comparison == Comparison.OVER ? width > limit : width >= limit;
    }
}
