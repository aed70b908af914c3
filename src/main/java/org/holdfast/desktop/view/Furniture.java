package org.holdfast.desktop.view;

import java.util.Objects;
import java.util.OptionalDouble;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.Orientation;

/**
 * What is written at the edges of an image. Immutable.
 *
 * @param label offset or code, top left; empty for none
 * @param settings window, slab and kernel, bottom left; not on small images; empty for none
 * @param letters orientation at the four edges
 * @param mmPerPx millimetres to a logical pixel; above 0
 * @param tickX where the other cut crosses, logical pixels from the left
 * @param tickY where the other cut crosses, logical pixels from the top
 * @param small whether the image is one of a strip
 */
public record Furniture(
        String label,
        String settings,
        Letters letters,
        double mmPerPx,
        OptionalDouble tickX,
        OptionalDouble tickY,
        boolean small) {

    /** Orientation letters of the four edges; empty for none. */
    public record Letters(String left, String right, String top, String bottom) {

        /** No letters: the image has no place in the patient. */
        public static final Letters NONE = new Letters("", "", "", "");

        public Letters {
            Objects.requireNonNull(left, "left");
            Objects.requireNonNull(right, "right");
            Objects.requireNonNull(top, "top");
            Objects.requireNonNull(bottom, "bottom");
        }

        /** The letters of a cut, its axes taken in the patient. */
        public static Letters of(CutAxes cut) {
            return new Letters(
                    Orientation.letters(cut.right().times(-1)),
                    Orientation.letters(cut.right()),
                    Orientation.letters(cut.down().times(-1)),
                    Orientation.letters(cut.down()));
        }
    }

    public Furniture {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(settings, "settings");
        Objects.requireNonNull(letters, "letters");
        Objects.requireNonNull(tickX, "tickX");
        Objects.requireNonNull(tickY, "tickY");
        if (!(mmPerPx > 0 && Double.isFinite(mmPerPx))) {
            throw new IllegalArgumentException("mmPerPx must be above 0 and finite, got " + mmPerPx);
        }
    }
}
