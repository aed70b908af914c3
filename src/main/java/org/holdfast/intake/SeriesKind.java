package org.holdfast.intake;

/** What a series is good for. */
public enum SeriesKind {
    /** At least one stack of parallel slices. */
    VOLUME,
    /** Projection radiographs. */
    RADIOGRAPH,
    /** Pictures that are neither: localizers, captures, renderings, slices that make no stack. */
    IMAGE,
    /** No pictures: reports, segmentations, objects of other kinds. */
    OTHER
}
