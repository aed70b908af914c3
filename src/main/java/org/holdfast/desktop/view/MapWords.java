package org.holdfast.desktop.view;

import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.CourseResults.Known;

/** What stands in the place of a map that is not there. */
final class MapWords {

    static final String ON_FILM = "no map on a radiograph";

    private MapWords() {}

    static String without(ConstructPart part, Known known) {
        if (part.kind() != PartKind.INTERFACE) {
            return "not measured";
        }
        return known.isMeasuring() ? "measuring" : "not measured";
    }
}
