package org.holdfast.measure;

/** Why nothing can be said at a sample. */
public enum Obstacle {
    /** No implant is seen under the sample. */
    NO_METAL("no implant seen under the face"),
    /** The implant's edge does not lie near the laid-out face. */
    NO_EDGE("implant edge not found near the laid-out face"),
    /** The implant or its porous layer is too thin for a plateau. */
    LAYER_TOO_THIN("implant layer under 1.5 mm, by fit only"),
    /** Dark values beside the implant. */
    DARK_STREAK("dark streak beside the implant"),
    /** Outside the valid image, or in a hole of the stack. */
    OUTSIDE_IMAGE("outside the valid image or in a hole of the stack"),
    /** Other metal is too near. */
    OTHER_METAL("other metal too near");

    private final String words;

    Obstacle(String words) {
        this.words = words;
    }

    /** The cause in words. */
    public String words() {
        return words;
    }
}
