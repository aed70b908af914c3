package org.holdfast.desktop.state;

/** What the mouse does on a picture: by its wheel, or by dragging with its first button. */
public enum MouseAct {
    STEP(Kind.WHEEL, "step along the cut's normal; with Shift five", false, false, false),
    ZOOM(Kind.WHEEL, "magnify at the pointer", true, false, false),
    CROSSING(Kind.DRAG, "move the crossing of the cuts", false, false, false),
    PAN(Kind.DRAG, "move the picture", false, true, false),
    WINDOW(Kind.DRAG, "window: sideways width, up and down centre", false, false, true);

    /** Wheel or drag. */
    public enum Kind {
        WHEEL("wheel"),
        DRAG("drag");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** As it is written. */
        public String words() {
            return words;
        }
    }

    /**
     * Keys held down while the mouse is used.
     *
     * @param control Ctrl
     * @param shift Shift
     * @param alt Alt
     */
    public record Held(boolean control, boolean shift, boolean alt) {

        /** As it is written before the name of the gesture. */
        public String words() {
            return (control ? "Ctrl " : "") + (shift ? "Shift " : "") + (alt ? "Alt " : "");
        }
    }

    private final Kind kind;
    private final String words;
    private final Held usual;

    MouseAct(Kind kind, String words, boolean control, boolean shift, boolean alt) {
        this.kind = kind;
        this.words = words;
        this.usual = new Held(control, shift, alt);
    }

    /** Wheel or drag. */
    public Kind kind() {
        return kind;
    }

    /** What it does. */
    public String words() {
        return words;
    }

    /** What is held down for it unless the person chose otherwise. */
    public Held usual() {
        return usual;
    }
}
