package org.holdfast.desktop.state;

/** What a window of HU is for; its values are computed from the subject. */
public enum WindowPreset {
    BONE_BESIDE_METAL("bone beside metal"),
    INSIDE_METAL("inside metal"),
    SOFT_TISSUE("soft tissue"),
    WHOLE_SCALE("whole scale");

    private final String words;

    WindowPreset(String words) {
        this.words = words;
    }

    /** The purpose in words. */
    public String words() {
        return words;
    }
}
