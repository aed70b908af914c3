package org.holdfast.architecture.trespass.unlisted;

/** Lies in a package without a row. */
public record Stray() {}
