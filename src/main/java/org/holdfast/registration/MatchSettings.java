package org.holdfast.registration;

/**
 * How two surfaces are matched.
 *
 * @param reachMm at first a point may lie so far from its partner, mm, &gt; 0
 * @param toleranceMm at last a point fits if it lies so near along the normal, mm, &gt; 0 and ≤ reachMm
 * @param leastCosine normals of partners agree at least so far, −1 to 1
 * @param rounds largest number of steps, ≥ 1
 * @param leastOverlap refused under this share of points inside the other image
 * @param leastInlierShare refused under this share of points inside that fit
 * @param largestResidualMm refused over this root mean square distance of the inliers, mm
 * @param leastShare a motion of whose squared length less than this share shows along the normals counts as undetermined
 */
public record MatchSettings(
        double reachMm,
        double toleranceMm,
        double leastCosine,
        int rounds,
        double leastOverlap,
        double leastInlierShare,
        double largestResidualMm,
        double leastShare) {

    public MatchSettings {
        RegistrationSettings.requireWithin("reachMm", reachMm, 0.01, 100);
        RegistrationSettings.requireWithin("toleranceMm", toleranceMm, 0.001, reachMm);
        RegistrationSettings.requireWithin("leastCosine", leastCosine, -1, 1);
        RegistrationSettings.requireWithin("rounds", rounds, 1, 1000);
        RegistrationSettings.requireWithin("leastOverlap", leastOverlap, 0, 1);
        RegistrationSettings.requireWithin("leastInlierShare", leastInlierShare, 0, 1);
        RegistrationSettings.requireWithin("largestResidualMm", largestResidualMm, 0, 10);
        RegistrationSettings.requireWithin("leastShare", leastShare, 0, 0.3);
    }

    /** For metal of one exam against that of another, started within a few mm and degrees. */
    public static MatchSettings withDefaults() {
        return new MatchSettings(6, 1, 0.7, 60, 0.3, 0.5, 0.5, 0.008);
    }

    /** The same with another reach at first. */
    public MatchSettings withReachMm(double mm) {
        return new MatchSettings(
                mm,
                Math.min(mm, toleranceMm),
                leastCosine,
                rounds,
                leastOverlap,
                leastInlierShare,
                largestResidualMm,
                leastShare);
    }
}
