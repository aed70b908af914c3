package org.holdfast.measure;

/** Why nothing can be said at a sample. */
public enum Obstacle {
    /** No implant is seen under the sample. */
    NO_METAL("no implant seen under the face"),
    /** The implant's edge does not lie near the laid-out face. */
    NO_EDGE("implant edge not found near the laid-out face"),
    /** The implant or its porous layer is too thin for a plateau. */
    LAYER_TOO_THIN("implant or its porous layer too thin to be read under the face, by fit only"),
    /** The face is laid out beside its component, or looks into it. */
    OFF_COMPONENT("the face does not lie on its component in the construct, or its normal points inwards"),
    /** Dark values beside the implant. */
    DARK_STREAK("dark streak beside the implant"),
    /** Outside the valid image, or in a hole of the stack. */
    OUTSIDE_IMAGE("outside the valid image or in a hole of the stack"),
    /** Other metal is too near. */
    OTHER_METAL("other metal too near"),
    /** The profile cannot be told as implant, gap and bone. */
    MISFIT("the profile does not look like implant, gap and bone"),
    /** The gap's standard error is over the limit. */
    UNCERTAIN("the width of the gap cannot be told to within the limit");

    private final String words;

    Obstacle(String words) {
        this.words = words;
    }

    /** The cause in words. */
    public String words() {
        return words;
    }
}
