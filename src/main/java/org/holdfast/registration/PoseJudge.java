package org.holdfast.registration;

import java.util.Locale;
import java.util.Optional;

/** Why a pose is not to be trusted, in words. */
final class PoseJudge {

    private PoseJudge() {}

    /** The first objection to a pose of surfaces; empty where it holds. */
    static Optional<String> surface(PoseResult.Found found, MatchSettings settings) {
        PoseQuality quality = found.quality();
        if (quality.overlap() < settings.leastOverlap()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "only %.0f %% of the reference exam's metal lies inside this exam's image (at least %.0f %% needed)",
                    100 * quality.overlap(),
                    100 * settings.leastOverlap()));
        }
        if (quality.inlierShare() < settings.leastInlierShare()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the metal does not fit: %.0f %% of its surface agrees within %.1f mm (at least %.0f %% needed):"
                            + " another patient or re-operated?",
                    100 * quality.inlierShare(),
                    settings.toleranceMm(),
                    100 * settings.leastInlierShare()));
        }
        if (quality.residualMm().orElseThrow() > settings.largestResidualMm()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the metal fits within %.2f mm only (at most %.2f mm allowed): another patient or re-operated?",
                    quality.residualMm().orElseThrow(),
                    settings.largestResidualMm()));
        }
        if (!found.uncertainty().isFullyDetermined()) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "the metal that was found does not determine a pose: it can turn or slide in %d way(s) unseen",
                    found.uncertainty().freeMotions().size()));
        }
        return Optional.empty();
    }
}
