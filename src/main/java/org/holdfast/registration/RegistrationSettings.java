package org.holdfast.registration;

import java.util.Locale;

/**
 * Thresholds of finding a pose by metal. Immutable.
 *
 * @param surfaceHu level of the metal's surface, HU: over bone cortex (to 1500) and under the mean of a porous face (near
 *     2100)
 * @param coarsePoints points for the search without a start
 * @param finePoints points for the last steps
 * @param largestTurnDeg the search without a start covers rotations up to this, degrees
 * @param match how the surfaces are matched and judged
 * @param otherMetalMm metal farther than this from any of the other exam's counts as new or gone, mm
 * @param otherMetalMm2 refused over this area of new or gone metal, mm²
 */
public record RegistrationSettings(
        double surfaceHu,
        int coarsePoints,
        int finePoints,
        double largestTurnDeg,
        MatchSettings match,
        double otherMetalMm,
        double otherMetalMm2) {

    public RegistrationSettings {
        requireWithin("surfaceHu", surfaceHu, 500, 10_000);
        requireWithin("coarsePoints", coarsePoints, 50, 5_000);
        requireWithin("finePoints", finePoints, 200, 100_000);
        requireWithin("largestTurnDeg", largestTurnDeg, 0, 90);
        requireWithin("otherMetalMm", otherMetalMm, 1, 50);
        requireWithin("otherMetalMm2", otherMetalMm2, 10, 100_000);
    }

    /** The values of the measurement definitions and of decision 0030. */
    public static RegistrationSettings withDefaults() {
        return new RegistrationSettings(1600, 400, 6_000, 45, MatchSettings.withDefaults(), 6, 250);
    }

    static void requireWithin(String name, double value, double lowest, double highest) {
        if (!(value >= lowest && value <= highest)) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "%s must lie in [%s, %s], got %s", name, lowest, highest, value));
        }
    }
}
