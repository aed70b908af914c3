package org.holdfast.figure;

import java.util.Objects;

/**
 * How a line is drawn. Immutable.
 *
 * @param colour colour of the line
 * @param widthPx width, logical pixels, above 0
 * @param dash whether and how it is broken
 */
public record Stroke(Colour colour, double widthPx, Dash dash) {

    /** How a line is broken, as lengths of stroke and gap in logical pixels. */
    public enum Dash {
        SOLID(0, 0),
        DASHED(5, 4),
        DOTTED(1.5, 3);

        private final double onPx;
        private final double offPx;

        Dash(double onPx, double offPx) {
            this.onPx = onPx;
            this.offPx = offPx;
        }

        double onPx() {
            return onPx;
        }

        double offPx() {
            return offPx;
        }
    }

    public Stroke {
        Objects.requireNonNull(colour, "colour");
        Objects.requireNonNull(dash, "dash");
        if (!(widthPx > 0 && Double.isFinite(widthPx))) {
            throw new IllegalArgumentException("widthPx must be above 0, got " + widthPx);
        }
    }

    /** An unbroken line. */
    public static Stroke of(Colour colour, double widthPx) {
        return new Stroke(colour, widthPx, Dash.SOLID);
    }

    /** The same line, broken. */
    public Stroke with(Dash newDash) {
        return new Stroke(colour, widthPx, newDash);
    }
}
