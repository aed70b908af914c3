package org.holdfast.intake;

/** What is done with an attribute; the letters of DICOM PS3.15, section E.1.1, once a choice between them is made. */
enum ProfileAction {
    /** K: kept; a sequence is gone through item by item. */
    KEEP,
    /** X: taken out. */
    REMOVE,
    /** Z: kept without a value. */
    EMPTY,
    /** D: given a value that says nothing. */
    REPLACE,
    /** U: given a new UID, the same wherever the old one stood. */
    MAP_UID;

    static ProfileAction of(String letter) {
        return switch (letter) {
            case "K" -> KEEP;
            case "X" -> REMOVE;
            case "Z" -> EMPTY;
            case "D" -> REPLACE;
            case "U" -> MAP_UID;
            default -> throw new IllegalArgumentException("action must be K, X, Z, D or U, got " + letter);
        };
    }
}
