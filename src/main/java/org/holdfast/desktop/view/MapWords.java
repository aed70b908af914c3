package org.holdfast.desktop.view;

import org.holdfast.desktop.state.MapKind;

/** What stands beside the maps of a kind. */
final class MapWords {

    private MapWords() {}

    static String title(MapKind kind) {
        return switch (kind) {
            case BY_FIT, BY_THRESHOLD, CHANGE -> "Face-on";
            case ZONE -> "Unrolled";
            case STRAIGHTENED -> "Straightened";
        };
    }

    static String direction(MapKind kind) {
        return switch (kind) {
            case BY_FIT, BY_THRESHOLD -> "";
            case CHANGE -> "mineral since the reference exam";
            case ZONE -> "cranial in the middle; bars: mean round the screw";
            case STRAIGHTENED -> "along the centre line";
        };
    }

    static String caution(MapKind kind, boolean compact) {
        return switch (kind) {
            case BY_FIT, BY_THRESHOLD ->
                compact
                        ? "Apparent contact only."
                        : "Apparent contact: bone just outside the metal's blur. CT does not resolve true contact.";
            case CHANGE ->
                compact ? "For course, not for state." : "For course, not for state: a fall alone is not loosening.";
            case ZONE -> compact ? "" : "Absence of a zone does not exclude loosening.";
            case STRAIGHTENED -> compact ? "" : "Blur fills narrow breaks.";
        };
    }
}
