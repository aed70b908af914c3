package org.holdfast.construct;

/** What a component is made of, as far as it matters for what CT can show of it. */
public enum Material implements Worded {
    TITANIUM_POROUS("titanium-porous"),
    TITANIUM_SOLID("titanium-solid"),
    COBALT_CHROMIUM("cobalt-chromium"),
    STEEL("steel"),
    TANTALUM("tantalum"),
    PEEK("peek"),
    CARBON("carbon"),
    GRAFT("graft"),
    CEMENT("cement"),
    UNKNOWN("unknown");

    private final String word;

    Material(String word) {
        this.word = word;
    }

    @Override
    public String word() {
        return word;
    }

    /** Whether a porous layer may be given: porous titanium, and tantalum, which is used as a foam. */
    public boolean mayBePorous() {
        return this == TITANIUM_POROUS || this == TANTALUM;
    }

    /**
     * Whether the part has a metal edge to measure from. PEEK, carbon, graft and cement have none: a reader may judge
     * them, a measurement may not. An unknown material is taken for metal until its plateau says otherwise.
     */
    public boolean hasMetalEdge() {
        return switch (this) {
            case PEEK, CARBON, GRAFT, CEMENT -> false;
            case TITANIUM_POROUS, TITANIUM_SOLID, COBALT_CHROMIUM, STEEL, TANTALUM, UNKNOWN -> true;
        };
    }
}
