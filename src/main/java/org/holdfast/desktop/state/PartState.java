package org.holdfast.desktop.state;

/** The state of a part in an exam as its mark tells it; each has a shape, a word and a colour. */
public enum PartState {
    NO_FINDING("no finding"),
    CHANGED("changed beyond error"),
    FAULT("broken or loose"),
    UNCONFIRMED("unconfirmed"),
    NOT_ASSESSABLE("not assessable"),
    NOT_MEASURED("not measured"),
    STALE("old settings");

    private final String words;

    PartState(String words) {
        this.words = words;
    }

    /** The state in words. */
    public String words() {
        return words;
    }
}
