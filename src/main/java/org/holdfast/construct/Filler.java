package org.holdfast.construct;

/**
 * What was put between an implant's face and the bone. With any filler but {@link #NONE} the first exam already shows
 * mineral, so only the change from it says something about bone.
 */
public enum Filler implements Worded {
    NONE("none"),
    AUTOGRAFT("autograft"),
    ALLOGRAFT("allograft"),
    CERAMIC("ceramic"),
    CEMENT("cement"),
    OTHER("other"),
    UNKNOWN("unknown");

    private final String word;

    Filler(String word) {
        this.word = word;
    }

    @Override
    public String word() {
        return word;
    }
}
