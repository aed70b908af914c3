package org.holdfast.construct;

/** What a row of a review is about: a face against bone, or an implanted part. */
public enum PartKind {
    INTERFACE,
    SCREW,
    ROD,
    BODY,
    OTHER
}
