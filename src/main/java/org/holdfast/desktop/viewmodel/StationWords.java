package org.holdfast.desktop.viewmodel;

import org.holdfast.desktop.render.StraightenedPainter;
import org.holdfast.desktop.state.Words;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Continuity.Break;
import org.holdfast.measure.Continuity.Station;

/** Places along a rod or screw, and its continuity as a whole, in words. */
final class StationWords {

    private StationWords() {}

    static StraightenedPainter.Station station(Station station) {
        String core = Double.isNaN(station.coreHu())
                ? "outside the image"
                : "core " + Words.quantity(station.coreHu(), 0, "HU");
        String words = "at " + Words.quantity(station.atMm(), 1, "mm") + ": " + core + ", "
                + Words.quantity(station.areaMm2(), 1, "mm²") + " of metal across"
                + (station.isKnownJoint() ? ", known joint" : "");
        return new StraightenedPainter.Station(
                station.atMm(), station.coreHu(), station.areaMm2(), station.isKnownJoint(), words);
    }

    static String summary(String part, String exam, Continuity whole) {
        StringBuilder words = new StringBuilder("straightened view, " + part + ", " + exam);
        if (whole.breaks().isEmpty()) {
            words.append(", ").append(ComponentFinding.noBreak(whole));
        }
        for (Break each : whole.breaks()) {
            words.append(", ")
                    .append(ComponentFinding.broken(each))
                    .append(" at ")
                    .append(Words.quantity(each.atMm(), 1, "mm"))
                    .append(each.status() == Continuity.Status.CONFIRMED ? "" : ", unconfirmed");
        }
        return words.toString();
    }
}
