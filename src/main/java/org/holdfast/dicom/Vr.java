package org.holdfast.dicom;

/** Value representations of DICOM PS3.5, section 6.2. */
public enum Vr {
    AE(Kind.TEXT),
    AS(Kind.TEXT),
    AT(Kind.NUMBER, 2, false),
    CS(Kind.TEXT),
    DA(Kind.TEXT),
    DS(Kind.TEXT),
    DT(Kind.TEXT),
    FD(Kind.NUMBER, 8, false),
    FL(Kind.NUMBER, 4, false),
    IS(Kind.TEXT),
    LO(Kind.TEXT),
    LT(Kind.TEXT),
    OB(Kind.BYTES, 1, true),
    OD(Kind.BYTES, 8, true),
    OF(Kind.BYTES, 4, true),
    OL(Kind.BYTES, 4, true),
    OV(Kind.BYTES, 8, true),
    OW(Kind.BYTES, 2, true),
    PN(Kind.TEXT),
    SH(Kind.TEXT),
    SL(Kind.NUMBER, 4, false),
    SQ(Kind.SEQUENCE, 1, true),
    SS(Kind.NUMBER, 2, false),
    ST(Kind.TEXT),
    SV(Kind.NUMBER, 8, true),
    TM(Kind.TEXT),
    UC(Kind.TEXT, 1, true),
    UI(Kind.TEXT),
    UL(Kind.NUMBER, 4, false),
    UN(Kind.BYTES, 1, true),
    UR(Kind.TEXT, 1, true),
    US(Kind.NUMBER, 2, false),
    UT(Kind.TEXT, 1, true),
    UV(Kind.NUMBER, 8, true);

    /** What the value field holds. */
    public enum Kind {
        TEXT,
        NUMBER,
        BYTES,
        SEQUENCE
    }

    private static final Vr[] BY_CODE = new Vr[1 << 16];

    static {
        for (Vr vr : values()) {
            BY_CODE[vr.name().charAt(0) << 8 | vr.name().charAt(1)] = vr;
        }
    }

    private final Kind kind;
    private final int unitBytes;
    private final boolean longLength;

    Vr(Kind kind) {
        this(kind, 1, false);
    }

    Vr(Kind kind, int unitBytes, boolean longLength) {
        this.kind = kind;
        this.unitBytes = unitBytes;
        this.longLength = longLength;
    }

    /** What the value field holds. */
    public Kind kind() {
        return kind;
    }

    /** Bytes that are swapped together when the byte order changes. */
    public int unitBytes() {
        return unitBytes;
    }

    /** Whether the explicit form has two reserved bytes and a 32-bit length (PS3.5, table 7.1-1). */
    boolean hasLongLength() {
        return longLength;
    }

    /** Whether several values are told apart by a backslash. */
    boolean isMultiValued() {
        return kind == Kind.TEXT && this != LT && this != ST && this != UT && this != UR;
    }

    /** Whether a value may hold many megabytes: bytes do, text and numbers that are decoded to objects do not. */
    boolean mayBeLong() {
        return kind == Kind.BYTES;
    }

    /** Whether SpecificCharacterSet applies (PS3.5, section 6.1.2.2). */
    boolean usesCharacterSet() {
        return switch (this) {
            case LO, LT, PN, SH, ST, UC, UT, UN -> true;
            default -> false;
        };
    }

    /** Byte that makes an odd value even. */
    byte padding() {
        return kind == Kind.TEXT && this != UI ? (byte) ' ' : 0;
    }

    /** The representation written as two letters, or null if there is none of that name. */
    static Vr of(int first, int second) {
        return BY_CODE[(first & 0xFF) << 8 | second & 0xFF];
    }
}
