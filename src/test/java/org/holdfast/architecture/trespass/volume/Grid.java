package org.holdfast.architecture.trespass.volume;

/** Used by others as a place to reach. */
public record Grid(int columns) {}
