package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.construct.ConstructPart;

/**
 * A part of a construct seen from the front. Immutable.
 *
 * @param part the part
 * @param outline how its points are meant
 * @param points of a line from end to end (a screw from head to tip); of an area, two opposite corners, upper left first
 * @param porous whether it is drawn with pores
 * @param owner of a face, the middle of the component that it belongs to, if that is drawn
 */
public record FrontPart(
        ConstructPart part, Outline outline, List<FrontPoint> points, boolean porous, Optional<FrontPoint> owner) {

    /** How points are meant. */
    public enum Outline {
        LINE,
        AREA
    }

    public FrontPart {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(outline, "outline");
        Objects.requireNonNull(owner, "owner");
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new IllegalArgumentException("at least 2 points, got " + points.size());
        }
    }

    /** The point halfway between its first and last. */
    public FrontPoint middle() {
        return first().towards(last(), 0.5);
    }

    /** The first point: a screw's head, an area's upper left corner. */
    public FrontPoint first() {
        return points.get(0);
    }

    /** The last point: a screw's tip, an area's lower right corner. */
    public FrontPoint last() {
        return points.get(points.size() - 1);
    }
}
