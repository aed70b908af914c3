package org.holdfast.desktop.viewmodel;

import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.Orientation;

/** How a cut runs through a part, in words. */
public final class CutWords {

    private CutWords() {}

    /** Through what the cut goes, and its direction from the picture's left to its right. */
    public static String direction(ConstructPart part, CutRow row) {
        CutAxes axes = row.axes(part.frame());
        String way =
                word(Orientation.letters(axes.right().times(-1))) + " to " + word(Orientation.letters(axes.right()));
        boolean isAlong = row == CutRow.ALONG;
        String through =
                switch (part.kind()) {
                    case INTERFACE, BODY, OTHER -> "load axis";
                    case SCREW -> isAlong ? "through the screw" : "across the screw";
                    case ROD -> isAlong ? "through the rod" : "across the rod";
                };
        return part.kind() == PartKind.OTHER ? way : through + ", " + way;
    }

    private static String word(String letters) {
        return switch (letters.isEmpty() ? ' ' : letters.charAt(0)) {
            case 'R' -> "right";
            case 'L' -> "left";
            case 'A' -> "front";
            case 'P' -> "back";
            case 'H' -> "head";
            case 'F' -> "foot";
            default -> letters;
        };
    }
}
