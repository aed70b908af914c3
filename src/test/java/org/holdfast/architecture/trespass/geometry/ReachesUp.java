package org.holdfast.architecture.trespass.geometry;

import org.holdfast.architecture.trespass.volume.Grid;

/** Breaks the row of geometry, which uses nothing. */
public record ReachesUp(Grid grid) {}
