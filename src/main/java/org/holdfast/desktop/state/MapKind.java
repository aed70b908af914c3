package org.holdfast.desktop.state;

import java.util.List;
import org.holdfast.construct.PartKind;

/** What the picture under an exam's cuts shows of a part. */
public enum MapKind {
    BY_FIT("by fit"),
    BY_THRESHOLD("by threshold"),
    CHANGE("change"),
    ZONE("zone"),
    STRAIGHTENED("straightened");

    private final String words;

    MapKind(String words) {
        this.words = words;
    }

    /** As it is named on a control. */
    public String words() {
        return words;
    }

    /** The kinds that a part may be shown by, the usual one first; none where there is nothing to map. */
    public static List<MapKind> of(PartKind part) {
        return switch (part) {
            case INTERFACE -> List.of(BY_FIT, BY_THRESHOLD, CHANGE);
            case SCREW -> List.of(ZONE, STRAIGHTENED);
            case ROD -> List.of(STRAIGHTENED);
            case BODY, OTHER -> List.of();
        };
    }
}
