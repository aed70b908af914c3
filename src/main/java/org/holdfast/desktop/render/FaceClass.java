package org.holdfast.desktop.render;

import org.holdfast.figure.Face;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Tissue;

/**
 * The classes of a face-on map, from most bone to none. Marks differ in size as well as in colour, and the light that a whole
 * cell gives falls from bone to none, so that the order survives in grey. The colours are the same in both themes: a map always lies on its own
 * dark ground.
 */
public enum FaceClass {
    BRIDGED(0xDDF4EE, 1),
    CONTACT(0x62CBCB, 1),
    NARROW_GAP(0xF3C04B, 0.74),
    GAP(0xD98A3A, 0.58),
    WIDE_GAP_OR_NO_BONE(0xA84F2C, 0.42),
    CANNOT_TELL(0x2A2F30, 1);

    /** Ground of every map. */
    static final int WELL = 0x0B0D0E;
    /** Stroke over what cannot be told. */
    static final int STROKE = 0x9AA3A0;

    private final int colour;
    private final double share;

    FaceClass(int colour, double share) {
        this.colour = colour;
        this.share = share;
    }

    /** The class of a reading. */
    public static FaceClass of(SampleReading reading, Face.GapLimits limits) {
        if (reading.tissue() == Tissue.NOT_ASSESSABLE) {
            return CANNOT_TELL;
        }
        if (reading.tissue() == Tissue.CONTACT) {
            return reading.isBridged() ? BRIDGED : CONTACT;
        }
        if (reading.tissue() == Tissue.NO_BONE) {
            return WIDE_GAP_OR_NO_BONE;
        }
        double gapMm = reading.gapMm().orElseThrow();
        return gapMm < limits.narrowMm() ? NARROW_GAP : gapMm <= limits.wideMm() ? GAP : WIDE_GAP_OR_NO_BONE;
    }

    /** 0xRRGGBB. */
    public int colour() {
        return colour;
    }

    /** Side of the mark as a share of its cell's. */
    public double share() {
        return share;
    }
}
