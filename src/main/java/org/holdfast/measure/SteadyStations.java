package org.holdfast.measure;

import java.util.List;
import java.util.stream.IntStream;

/** Which stations' centroids tell where the part lies: followed, and clear of joints, ends and breaks. */
final class SteadyStations {

    /** Blur of a joint or of an end that is cut obliquely moves the centroid so far beyond it, mm. */
    private static final double BORDER_MM = 1.5;

    private SteadyStations() {}

    /** Stations that are followed outside joints, however near to one. */
    static boolean[] all(PartTrack track, PartTrack referenceOrNull) {
        boolean[] usable = new boolean[track.size()];
        for (int n = 0; n < usable.length; n++) {
            usable[n] = isOwn(track, n) && (referenceOrNull == null || isOwn(referenceOrNull, n));
        }
        return usable;
    }

    /**
     * Stations clear of everything that moves a centroid; a cut at 45° does so within a radius of its middle.
     *
     * @param dips where metal is missing
     */
    static boolean[] clear(PartTrack track, PartTrack referenceOrNull, List<DipRule.Dip> dips) {
        boolean[] usable = all(track, referenceOrNull);
        int border = track.axis().stationsIn(BORDER_MM);
        int ofDip = track.axis().stationsIn(BORDER_MM + track.axis().radiusMm());
        boolean[] clear = new boolean[usable.length];
        for (int n = 0; n < clear.length; n++) {
            int at = n;
            clear[n] = isClearOfBorders(usable, at, border)
                    && dips.stream().allMatch(d -> at < d.first() - ofDip || at > d.last() + ofDip);
        }
        return clear;
    }

    private static boolean isClearOfBorders(boolean[] usable, int at, int border) {
        return at - border >= 0
                && at + border < usable.length
                && IntStream.rangeClosed(at - border, at + border).allMatch(m -> usable[m]);
    }

    private static boolean isOwn(PartTrack track, int n) {
        return track.isFollowed()[n] && !track.isJoint(n);
    }
}
