package org.holdfast.desktop.render;

import java.util.OptionalDouble;
import org.holdfast.figure.Face;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Tissue;

/**
 * The classes of a face-on map, from most bone to none. Marks differ in size as well as in colour, and the light that a whole
 * cell gives falls from bone to none, so that the order survives in grey. The colours are the same in both themes: a map always lies on its own
 * dark ground.
 */
public enum FaceClass implements MapClass {
    BRIDGED(0xDDF4EE, 1),
    CONTACT(0x62CBCB, 1),
    NARROW_GAP(0xF3C04B, 0.74),
    GAP(0xD98A3A, 0.58),
    WIDE_GAP_OR_NO_BONE(0xA84F2C, 0.42),
    CANNOT_TELL(0x2A2F30, 1);

    private final int colour;
    private final double share;

    FaceClass(int colour, double share) {
        this.colour = colour;
        this.share = share;
    }

    /** The class of a reading by threshold. */
    public static FaceClass of(SampleReading reading, Face.GapLimits limits) {
        return of(reading.tissue(), reading.gapMm(), reading.isBridged(), limits);
    }

    /** The class of a reading by fit. */
    public static FaceClass of(FittedReading reading, Face.GapLimits limits) {
        return of(reading.tissue(), reading.gapMm(), reading.isBridged(), limits);
    }

    private static FaceClass of(Tissue tissue, OptionalDouble gapMm, boolean isBridged, Face.GapLimits limits) {
        return switch (tissue) {
            case NOT_ASSESSABLE -> CANNOT_TELL;
            case CONTACT -> isBridged ? BRIDGED : CONTACT;
            case NO_BONE -> WIDE_GAP_OR_NO_BONE;
            case GAP -> ofWidth(gapMm.orElseThrow(), limits);
        };
    }

    /** The class of a gap, or of a zone, of a width. */
    static FaceClass ofWidth(double widthMm, Face.GapLimits limits) {
        return widthMm < limits.narrowMm() ? NARROW_GAP : widthMm <= limits.wideMm() ? GAP : WIDE_GAP_OR_NO_BONE;
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
        return this == BRIDGED ? Sign.DOT : this == CANNOT_TELL ? Sign.STROKE : Sign.NONE;
    }
}
