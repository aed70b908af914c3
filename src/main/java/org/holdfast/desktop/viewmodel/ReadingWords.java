package org.holdfast.desktop.viewmodel;

import java.util.List;
import org.holdfast.desktop.state.Words;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.ChangeReading;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Tissue;

/** What one sample of a face says, and all of them together, in words. */
public final class ReadingWords {

    private ReadingWords() {}

    /** One sample. */
    public static String of(SampleReading reading) {
        String what =
                switch (reading.tissue()) {
                    case CONTACT ->
                        reading.isBridged() ? "contact, bridged to the host bone" : "contact, no gap visible";
                    case GAP -> "gap of " + Words.millimetres(reading.gapMm(), 1, "unknown width");
                    case NO_BONE -> "no bone within reach";
                    case NOT_ASSESSABLE ->
                        "cannot tell: " + reading.obstacle().orElseThrow().words();
                };
        String hu = reading.beyondGuardHu().isPresent()
                ? ", " + Words.quantity(reading.beyondGuardHu().getAsDouble(), 0, "HU") + " beyond the guard"
                : "";
        return what + hu;
    }

    /** One sample by fit. */
    public static String of(FittedReading reading) {
        String se = reading.gapSeMm().isPresent()
                ? " ± " + Words.number(reading.gapSeMm().getAsDouble(), 1)
                : "";
        String gap = reading.gapMm().isPresent()
                ? "fitted gap " + Words.number(reading.gapMm().getAsDouble(), 1) + se + "\u2009mm"
                : "gap not stated";
        return switch (reading.tissue()) {
            case CONTACT -> (reading.isBridged() ? "contact, bridged to the host bone, " : "contact, ") + gap;
            case GAP -> gap;
            case NO_BONE -> "no bone within reach";
            case NOT_ASSESSABLE ->
                "cannot tell: " + reading.obstacle().orElseThrow().words();
        };
    }

    /** One sample's change. */
    public static String of(ChangeReading reading) {
        String what =
                switch (reading.kind()) {
                    case MORE -> "more mineral";
                    case LESS -> "less mineral";
                    case NONE -> "no change beyond error";
                    case NOT_COMPARABLE -> "not comparable";
                };
        if (reading.differenceHu().isEmpty()) {
            return what;
        }
        String error = reading.errorHu().isPresent()
                ? ", SD " + Words.quantity(reading.errorHu().getAsDouble(), 0, "HU")
                : "";
        return what + ": " + MotionWords.signed(reading.differenceHu().getAsDouble(), 0) + "\u2009HU" + error;
    }

    /** A fitted face as a whole. */
    public static String fitted(String part, String exam, FittedContact c) {
        return "face-on map by fit, " + part + ", " + exam + ", "
                + (c.fraction().value().isPresent()
                        ? Words.percent(c.fraction().value().getAsDouble()) + " contact"
                        : "contact not stated")
                + ", " + Words.percent(c.notAssessable()) + " cannot tell";
    }

    /** A change map as a whole. */
    public static String summary(String part, String exam, ChangeMap c) {
        return "map of change since the reference exam, " + part + ", " + exam + ", " + Words.percent(c.more())
                + " more mineral, " + Words.percent(c.less()) + " less, " + Words.percent(c.none())
                + " no change beyond error, " + Words.percent(c.notComparable()) + " not comparable";
    }

    /** How much of the face is what, for those who cannot see the map. */
    public static String summary(String part, String exam, List<SampleReading> readings) {
        double area = readings.stream().mapToDouble(r -> r.sample().areaMm2()).sum();
        StringBuilder words =
                new StringBuilder("face-on map, ").append(part).append(", ").append(exam);
        for (Tissue tissue : Tissue.values()) {
            double share = readings.stream()
                    .filter(r -> r.tissue() == tissue)
                    .mapToDouble(r -> r.sample().areaMm2())
                    .sum();
            words.append(", ")
                    .append(Words.percent(area > 0 ? share / area : 0))
                    .append(' ')
                    .append(name(tissue));
        }
        return words.toString();
    }

    private static String name(Tissue tissue) {
        return switch (tissue) {
            case CONTACT -> "contact";
            case GAP -> "gap";
            case NO_BONE -> "no bone";
            case NOT_ASSESSABLE -> "cannot tell";
        };
    }
}
