package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How a part has bent since the reference exam: sharp steps and kinks, and the slow bend of its pieces. All is the
 * difference from the reference exam's centre line, so an inexact layout, the contour that was given to a rod and the
 * pose of the exam do not enter.
 */
final class PartBend {

    /** A piece's direction at its ends is taken over this length, mm; a piece under three such lengths has no bend. */
    private static final double END_MM = 6;
    /** A kink is looked for only so far from a dip: nearer it belongs to that break, mm. */
    static final double OF_DIP_MM = 5;

    private final PartTrack track;
    private final PartTrack referenceOrNull;
    private final ContinuitySettings settings;
    private final List<DipRule.Dip> dips;
    private final boolean[] isSteady;

    PartBend(PartTrack track, PartTrack referenceOrNull, List<DipRule.Dip> dips, ContinuitySettings settings) {
        this.track = track;
        this.referenceOrNull = referenceOrNull;
        this.dips = dips;
        this.settings = settings;
        this.isSteady = SteadyStations.clear(track, referenceOrNull, dips);
    }

    /**
     * Stations at which the part steps aside or kinks within the settings' length; one a place, where it is sharpest.
     * Without a reference exam a kink may be the contour of the rod, and only steps are looked for.
     */
    List<Integer> sharpPlaces() {
        List<Integer> places = new ArrayList<>();
        double sharpest = 0;
        int at = -1;
        for (int n = 0; n <= track.size(); n++) {
            double sharpness = n < track.size() && isClear(n) ? sharpness(n) : 0;
            if (sharpness > 1) {
                at = sharpness > sharpest ? n : at;
                sharpest = Math.max(sharpest, sharpness);
            } else if (at >= 0) {
                places.add(at);
                at = -1;
                sharpest = 0;
            }
        }
        return places;
    }

    private boolean isClear(int n) {
        int near = track.axis().stationsIn(OF_DIP_MM);
        return track.isAssessable(n) && dips.stream().allMatch(d -> n < d.first() - near || n > d.last() + near);
    }

    /** Step over its limit, or angle over its own, whichever is more: over 1 is a candidate. */
    private double sharpness(int n) {
        // A screw's thread moves the centroid turn by turn, so the stretches are as long as two turns.
        int length = Math.max(1, track.axis().stationsIn(settings.angulationWithinMm()));
        int clear = Math.max(1, length / 4);
        Optional<SideFit> before = SideFit.of(track, referenceOrNull, isSteady, n - clear - length, n - clear);
        Optional<SideFit> after = SideFit.of(track, referenceOrNull, isSteady, n + clear, n + clear + length);
        if (before.isEmpty() || after.isEmpty()) {
            return 0;
        }
        double at = track.axis().station(n).atMm();
        double step = before.get().stepMm(after.get(), at)
                / (settings.stepShare() * track.axis().diameterMm());
        double angle = referenceOrNull == null ? 0 : before.get().angleDeg(after.get()) / settings.angulationDeg();
        return Math.max(step, angle);
    }

    /**
     * A change of bend.
     *
     * @param deg how much, degrees
     * @param errorDeg its standard error, degrees
     */
    record Change(double deg, double errorDeg) {

        /** Whether it is more than a limit and more than chance. */
        boolean isOver(double limitDeg) {
            return deg > Math.max(limitDeg, CHANCE_SE * errorDeg);
        }
    }

    /** A change under so many standard errors may be chance: the length of a two-dimensional error, 99.9 %. */
    private static final double CHANCE_SE = 3.7;

    /**
     * The largest change of bend of a piece between breaks, degrees: how much more its two ends are turned against each
     * other than on the reference exam. Empty without a reference exam, or where no piece is long enough.
     *
     * @param breaks stations of the breaks, ascending
     */
    Optional<Change> change(List<Integer> breaks) {
        if (referenceOrNull == null) {
            return Optional.empty();
        }
        int clear = track.axis().stationsIn(OF_DIP_MM);
        int end = track.axis().stationsIn(END_MM);
        Optional<Change> largest = Optional.empty();
        int from = firstUsable(0);
        for (int piece = 0; piece <= breaks.size(); piece++) {
            int to = lastUsable(piece < breaks.size() ? breaks.get(piece) - clear : track.size() - 1);
            if (to - from >= 3 * end) {
                Optional<Change> change = SideFit.of(track, referenceOrNull, isSteady, from, from + end)
                        .flatMap(a -> SideFit.of(track, referenceOrNull, isSteady, to - end, to)
                                .map(b -> new Change(a.angleDeg(b), a.angleErrorDeg(b))));
                if (change.isPresent()
                        && change.get().deg() > largest.map(Change::deg).orElse(-1.0)) {
                    largest = change;
                }
            }
            from = piece < breaks.size() ? firstUsable(breaks.get(piece) + clear) : from;
        }
        return largest;
    }

    private int firstUsable(int from) {
        int n = Math.max(0, from);
        while (n < track.size() && !isSteady[n]) {
            n++;
        }
        return n;
    }

    private int lastUsable(int to) {
        int n = Math.min(to, track.size() - 1);
        while (n >= 0 && !isSteady[n]) {
            n--;
        }
        return n;
    }
}
