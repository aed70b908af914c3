package org.holdfast.measure;

/** What lies beside the implant at one sample, as far as the scan can tell. */
public enum Tissue {
    /** Bone at the end of the guard: apparent contact, or a gap that this scan cannot see. */
    CONTACT,
    /** Bone, but at a distance from the implant. */
    GAP,
    /** No bone within the gap limit. */
    NO_BONE,
    /** Nothing can be said; the reading has a cause. */
    NOT_ASSESSABLE
}
