package org.holdfast.architecture.trespass.review;

/** Has a name that says nothing. */
public record ReadingManager() {}
