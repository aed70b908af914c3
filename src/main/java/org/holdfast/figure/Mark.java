package org.holdfast.figure;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** One primitive of a drawing. All are immutable; lengths and places are logical pixels. */
public sealed interface Mark {

    /** A straight line. */
    record Line(FigurePoint from, FigurePoint to, Stroke stroke) implements Mark {
        public Line {
            Objects.requireNonNull(from, "from");
            Objects.requireNonNull(to, "to");
            Objects.requireNonNull(stroke, "stroke");
        }
    }

    /** A line through two points or more; not closed. */
    record Polyline(List<FigurePoint> points, Stroke stroke) implements Mark {
        public Polyline {
            points = List.copyOf(points);
            Objects.requireNonNull(stroke, "stroke");
            if (points.size() < 2) {
                throw new IllegalArgumentException("a polyline needs at least 2 points, got " + points.size());
            }
        }
    }

    /** A closed area, filled, outlined or both. */
    record Polygon(List<FigurePoint> points, Optional<Colour> fill, Optional<Stroke> stroke) implements Mark {
        public Polygon {
            points = List.copyOf(points);
            requireVisible(fill, stroke);
            if (points.size() < 3) {
                throw new IllegalArgumentException("a polygon needs at least 3 points, got " + points.size());
            }
        }
    }

    /** An upright rectangle, filled, outlined or both; width and height at least 0. */
    record Rectangle(double x, double y, double width, double height, Optional<Colour> fill, Optional<Stroke> stroke)
            implements Mark {
        public Rectangle {
            requireVisible(fill, stroke);
            if (!(width >= 0 && height >= 0 && Double.isFinite(width) && Double.isFinite(height))) {
                throw new IllegalArgumentException("a rectangle cannot measure " + width + " x " + height);
            }
        }
    }

    /** A circle, filled, outlined or both. */
    record Circle(FigurePoint centre, double radius, Optional<Colour> fill, Optional<Stroke> stroke) implements Mark {
        public Circle {
            Objects.requireNonNull(centre, "centre");
            requireVisible(fill, stroke);
            if (!(radius >= 0 && Double.isFinite(radius))) {
                throw new IllegalArgumentException("a circle cannot have radius " + radius);
            }
        }
    }

    /** One line of words at a place on its base line. */
    record Words(FigurePoint place, String text, TextStyle style) implements Mark {
        public Words {
            Objects.requireNonNull(place, "place");
            Objects.requireNonNull(text, "text");
            Objects.requireNonNull(style, "style");
        }
    }

    private static void requireVisible(Optional<Colour> fill, Optional<Stroke> stroke) {
        if (fill.isEmpty() && stroke.isEmpty()) {
            throw new IllegalArgumentException("a shape needs a fill or a stroke");
        }
    }
}
