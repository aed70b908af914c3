package org.holdfast.desktop.render;

/** One class of a map: its colour, how much of a cell its mark fills, and the sign on the mark. */
public sealed interface MapClass permits FaceClass, ChangeClass {

    /** Ground of every map. */
    int WELL = 0x0B0D0E;
    /** Stroke over what cannot be told. */
    int STROKE = 0x9AA3A0;

    /** What is drawn on a mark, so that no class is told by its colour alone. */
    enum Sign {
        NONE,
        DOT,
        /** A stroke that rises to the right. */
        STROKE,
        PLUS,
        MINUS
    }

    /** 0xRRGGBB. */
    int colour();

    /** Side of the mark as a share of its cell's. */
    double share();

    /** What is drawn on it. */
    Sign sign();
}
