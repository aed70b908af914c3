package org.holdfast.intake;

/** What a series of an exam is used for. */
public enum ExamRole {
    /** HU, distances and courses are measured here: the one best stack of an exam. */
    MEASURE,
    /** Says the same or does not: breaks, angles and ratios are looked for here too; contact is never stated on it. */
    CONFIRM,
    /** Looked at only. */
    VIEW
}
