package org.holdfast.architecture.trespass.figure;

import java.awt.Graphics2D;

/** Allowed by name: the one class that paints. */
public record Painter(Graphics2D graphics) {

    record Brush(Graphics2D graphics) {}
}
