package org.holdfast.figure;

/**
 * The colours of printed figures, on a light ground. Hue is kept for findings: axes, words and lines are neutral. The
 * cells of a face-on map, colour and size together, run from light (bone) to dark (none), so that they keep their order
 * in grey; each class also has a mark of its own.
 */
final class Palette {

    static final Colour PAPER = Colour.of(0xFFFFFF);
    static final Colour RULE = Colour.of(0xD5D2C8);
    static final Colour INK = Colour.of(0x1B2021);
    static final Colour INK_SOFT = Colour.of(0x474F4F);
    static final Colour INK_FAINT = Colour.of(0x59615F);
    static final Colour BONE = Colour.of(0x00627F);
    static final Colour CHANGE = Colour.of(0x805300);
    static final Colour CANNOT_TELL = Colour.of(0x59615F);

    /** Ground of a face-on map, dark on every theme. */
    static final Colour WELL = Colour.of(0x0B0D0E);

    static final Colour MAP_BRIDGED = Colour.of(0xDDF4EE);
    static final Colour MAP_CONTACT = Colour.of(0x62CBCB);
    static final Colour MAP_NARROW_GAP = Colour.of(0xF3C04B);
    static final Colour MAP_GAP = Colour.of(0xD98A3A);
    static final Colour MAP_NONE = Colour.of(0xA84F2C);
    static final Colour MAP_CANNOT_TELL = Colour.of(0x2A2F30);
    static final Colour MAP_CANNOT_TELL_STROKE = Colour.of(0x9AA3A0);

    private Palette() {}
}
