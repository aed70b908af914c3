package org.holdfast.measure;

/** How the HU above which tissue beside the implant counts as bone is chosen. */
public enum BoneThreshold {
    /** Midway between fluid and the host bone's own HU on the reference exam. */
    HOST_RELATIVE,
    /** A fixed number for every subject. */
    FIXED
}
