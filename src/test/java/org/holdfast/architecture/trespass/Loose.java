package org.holdfast.architecture.trespass;

/** Lies in the root package, where only the entry point may. */
public record Loose() {}
