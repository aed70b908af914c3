package org.holdfast.registration;

/**
 * How a pose is refined on the edges of metal.
 *
 * @param limitMm the middle of the points may move so far from the start, mm
 * @param limitDeg and turn so far, degrees
 * @param reachMm an edge is looked for so far to both sides of where it is expected, mm
 * @param rounds largest number of steps, ≥ 1
 * @param leastContrastHu least step from metal to what lies outside, HU
 * @param offsetSdMm edges of one exam are expected to lie so far out against the other's (another blur), SD, mm
 * @param leastOverlap refused under this share of points inside the exam's image
 * @param leastInlierShare refused under this share of the points inside whose edge is seen in both exams and fits
 * @param leastShare a motion of whose squared length less than this share shows along the normals counts as undetermined
 */
public record EdgeSettings(
        double limitMm,
        double limitDeg,
        double reachMm,
        int rounds,
        double leastContrastHu,
        double offsetSdMm,
        double leastOverlap,
        double leastInlierShare,
        double leastShare) {

    public EdgeSettings {
        RegistrationSettings.requireWithin("limitMm", limitMm, 0, 100);
        RegistrationSettings.requireWithin("limitDeg", limitDeg, 0, 180);
        RegistrationSettings.requireWithin("reachMm", reachMm, 0.5, 10);
        RegistrationSettings.requireWithin("rounds", rounds, 1, 100);
        RegistrationSettings.requireWithin("leastContrastHu", leastContrastHu, 1, 30_000);
        RegistrationSettings.requireWithin("offsetSdMm", offsetSdMm, 0.001, 10);
        RegistrationSettings.requireWithin("leastOverlap", leastOverlap, 0, 1);
        RegistrationSettings.requireWithin("leastInlierShare", leastInlierShare, 0, 1);
        RegistrationSettings.requireWithin("leastShare", leastShare, 0, 0.3);
    }

    /** For a part or a rigid group: at most 5 mm and 5° from where the construct's pose puts it. */
    public static EdgeSettings withDefaults() {
        return new EdgeSettings(5, 5, 2, 12, 500, 0.1, 0.25, 0.4, 0.008);
    }

    /** The same with other limits of motion. */
    public EdgeSettings withLimits(double mm, double deg) {
        return new EdgeSettings(
                mm, deg, reachMm, rounds, leastContrastHu, offsetSdMm, leastOverlap, leastInlierShare, leastShare);
    }
}
