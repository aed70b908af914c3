package org.holdfast.desktop.viewmodel;

import java.util.List;
import org.holdfast.desktop.state.Words;
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
