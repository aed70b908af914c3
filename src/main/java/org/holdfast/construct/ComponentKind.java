package org.holdfast.construct;

/** What a component is, in the trade's terms. */
public enum ComponentKind implements Worded {
    PEDICLE_SCREW("pedicle-screw", Family.SCREW),
    ILIAC_SCREW("iliac-screw", Family.SCREW),
    S2_ALAR_ILIAC_SCREW("s2-alar-iliac-screw", Family.SCREW),
    SACRAL_SCREW("sacral-screw", Family.SCREW),
    BODY_FIXATION_SCREW("body-fixation-screw", Family.SCREW),
    HOOK("hook", Family.HOOK),
    MAIN_ROD("main-rod", Family.ROD),
    ACCESSORY_ROD("accessory-rod", Family.ROD),
    SATELLITE_ROD("satellite-rod", Family.ROD),
    CROSS_LINK("cross-link", Family.CONNECTOR),
    ROD_TO_ROD_CONNECTOR("rod-to-rod-connector", Family.CONNECTOR),
    OFFSET_CONNECTOR("offset-connector", Family.CONNECTOR),
    LOCKING_CAP("locking-cap", Family.LOCKING_CAP),
    PLATE("plate", Family.PLATE),
    CAGE("cage", Family.BODY),
    VERTEBRAL_BODY("vertebral-body", Family.BODY),
    PELVIC_BODY("pelvic-body", Family.BODY),
    SACRAL_BODY("sacral-body", Family.BODY),
    CUSTOM_BODY("custom-body", Family.BODY),
    STRUT_GRAFT("strut-graft", Family.BODY),
    CABLE("cable", Family.CABLE),
    CEMENT("cement", Family.OTHER),
    OTHER("other", Family.OTHER);

    /** Kinds that take the same part in the load path. */
    public enum Family {
        SCREW,
        HOOK,
        ROD,
        CONNECTOR,
        LOCKING_CAP,
        PLATE,
        /** What stands in for bone between two bones. */
        BODY,
        CABLE,
        OTHER
    }

    private final String word;
    private final Family family;

    ComponentKind(String word, Family family) {
        this.word = word;
        this.family = family;
    }

    @Override
    public String word() {
        return word;
    }

    /** The part that this kind takes in the load path. */
    public Family family() {
        return family;
    }

    /** Whether it is a screw of any kind. */
    public boolean isScrew() {
        return family == Family.SCREW;
    }

    /** Whether it is a rod of any kind. */
    public boolean isRod() {
        return family == Family.ROD;
    }
}
