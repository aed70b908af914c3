package org.holdfast.architecture.trespass.figure;

import java.awt.Graphics2D;

/** Not allowed: paints, but is not the one. */
public record SecondPainter(Graphics2D graphics) {}
