package org.holdfast.architecture.trespass.review.util;

/** Lies in a package that says nothing. */
public record Bag() {}
