package org.holdfast.figure;

import java.util.Objects;

/**
 * How words are set. Immutable.
 *
 * @param sizePx height of the type, logical pixels, above 0
 * @param weight regular or strong
 * @param anchor which part of the words lies at the given place; the place is on the base line
 * @param colour colour of the words
 */
public record TextStyle(double sizePx, Weight weight, Anchor anchor, Colour colour) {

    /** Weight of the type. */
    public enum Weight {
        REGULAR,
        STRONG
    }

    /** Which part of the words lies at the given place. */
    public enum Anchor {
        START,
        MIDDLE,
        END
    }

    public TextStyle {
        Objects.requireNonNull(weight, "weight");
        Objects.requireNonNull(anchor, "anchor");
        Objects.requireNonNull(colour, "colour");
        if (!(sizePx > 0 && Double.isFinite(sizePx))) {
            throw new IllegalArgumentException("sizePx must be above 0, got " + sizePx);
        }
    }

    /** Regular type that starts at the given place. */
    public static TextStyle of(double sizePx, Colour colour) {
        return new TextStyle(sizePx, Weight.REGULAR, Anchor.START, colour);
    }

    public TextStyle strong() {
        return new TextStyle(sizePx, Weight.STRONG, anchor, colour);
    }

    public TextStyle at(Anchor newAnchor) {
        return new TextStyle(sizePx, weight, newAnchor, colour);
    }
}
