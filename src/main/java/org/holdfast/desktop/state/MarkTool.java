package org.holdfast.desktop.state;

import java.util.Optional;

/** What a press on a cut draws, if a tool is in hand. */
public enum MarkTool {
    LENGTH("length", 2),
    ANGLE("angle", 3),
    ELLIPSE("ellipse", 2),
    RECTANGLE("rectangle", 2),
    POLYGON("polygon", Integer.MAX_VALUE);

    private final String words;
    private final int points;

    MarkTool(String words, int points) {
        this.words = words;
        this.points = points;
    }

    /** What it draws, in words. */
    public String words() {
        return words;
    }

    /** How many points make the mark; a polygon is closed by the person. */
    public int points() {
        return points;
    }

    /** Whether it is drawn by one press, drag and release; else by a click for each point. */
    public boolean isDragged() {
        return points == 2;
    }

    /** The region tool after this one: ellipse, rectangle, polygon, none; the first of them after any other. */
    public static Optional<MarkTool> nextRegion(Optional<MarkTool> inHand) {
        if (inHand.isEmpty() || !inHand.get().isRegion()) {
            return Optional.of(ELLIPSE);
        }
        return inHand.get() == POLYGON
                ? Optional.empty()
                : Optional.of(values()[inHand.get().ordinal() + 1]);
    }

    /** Whether it draws a region. */
    public boolean isRegion() {
        return this == ELLIPSE || this == RECTANGLE || this == POLYGON;
    }
}
