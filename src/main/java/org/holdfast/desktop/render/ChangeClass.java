package org.holdfast.desktop.render;

import org.holdfast.measure.ChangeReading;

/**
 * The classes of a map of change since the reference exam. More and less differ in size and sign as well as in colour; no
 * change is small and grey, so that what changed stands out.
 */
public enum ChangeClass implements MapClass {
    MORE(0x62CBCB, 1, Sign.PLUS),
    LESS(0xF3C04B, 0.7, Sign.MINUS),
    NO_CHANGE(0x6E7876, 0.36, Sign.NONE),
    NOT_COMPARABLE(0x2A2F30, 1, Sign.STROKE);

    private final int colour;
    private final double share;
    private final Sign sign;

    ChangeClass(int colour, double share, Sign sign) {
        this.colour = colour;
        this.share = share;
        this.sign = sign;
    }

    /** The class of a reading. */
    public static ChangeClass of(ChangeReading reading) {
        return switch (reading.kind()) {
            case MORE -> MORE;
            case LESS -> LESS;
            case NONE -> NO_CHANGE;
            case NOT_COMPARABLE -> NOT_COMPARABLE;
        };
    }

    @Override
    public int colour() {
        return colour;
    }

    @Override
    public double share() {
        return share;
    }

    @Override
    public Sign sign() {
        return sign;
    }
}
