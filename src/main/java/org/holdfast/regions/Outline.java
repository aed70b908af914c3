package org.holdfast.regions;

import java.util.List;
import java.util.Objects;

/**
 * A closed line on a cut, in pixel coordinates. A pixel belongs to the region if its centre lies inside. All are
 * immutable.
 */
public sealed interface Outline {

    /** Whether a place lies inside; the rule for places on the line itself stands with each kind. */
    boolean contains(double x, double y);

    /** Area inside, in pixels: what is drawn, not what is counted. */
    double areaPixels();

    /** Left end of the region, pixels. */
    double left();

    /** Upper end of the region, pixels. */
    double top();

    /** Right end of the region, pixels. */
    double right();

    /** Lower end of the region, pixels. */
    double bottom();

    /**
     * An ellipse with its axes along the picture's; places on the line are inside.
     *
     * @param centre its middle
     * @param halfWidth half of its width, pixels, above 0
     * @param halfHeight half of its height, pixels, above 0
     */
    record Ellipse(PixelPoint centre, double halfWidth, double halfHeight) implements Outline {

        public Ellipse {
            Objects.requireNonNull(centre, "centre");
            requireAboveZero("halfWidth", halfWidth);
            requireAboveZero("halfHeight", halfHeight);
        }

        @Override
        public boolean contains(double x, double y) {
            double a = (x - centre.x()) / halfWidth;
            double b = (y - centre.y()) / halfHeight;
            return a * a + b * b <= 1;
        }

        @Override
        public double areaPixels() {
            return Math.PI * halfWidth * halfHeight;
        }

        @Override
        public double left() {
            return centre.x() - halfWidth;
        }

        @Override
        public double top() {
            return centre.y() - halfHeight;
        }

        @Override
        public double right() {
            return centre.x() + halfWidth;
        }

        @Override
        public double bottom() {
            return centre.y() + halfHeight;
        }
    }

    /**
     * A rectangle with its sides along the picture's; places on the line are inside.
     *
     * @param left left side, pixels
     * @param top upper side, pixels
     * @param right right side, pixels, above {@code left}
     * @param bottom lower side, pixels, above {@code top}
     */
    record Rectangle(double left, double top, double right, double bottom) implements Outline {

        public Rectangle {
            if (!Double.isFinite(left) || !Double.isFinite(top)) {
                throw new IllegalArgumentException("left and top must be finite, got " + left + " and " + top);
            }
            requireAboveZero("right − left", right - left);
            requireAboveZero("bottom − top", bottom - top);
        }

        @Override
        public boolean contains(double x, double y) {
            return x >= left && x <= right && y >= top && y <= bottom;
        }

        @Override
        public double areaPixels() {
            return (right - left) * (bottom - top);
        }
    }

    /**
     * A polygon that does not cross itself; of two polygons that share a side, a place on it is inside exactly one.
     *
     * @param corners in order, at least 3; the last is joined to the first
     */
    record Polygon(List<PixelPoint> corners) implements Outline {

        public Polygon {
            corners = List.copyOf(corners);
            if (corners.size() < 3) {
                throw new IllegalArgumentException("a polygon needs at least 3 corners, got " + corners.size());
            }
            if (crossesItself(corners)) {
                throw new IllegalArgumentException("a polygon must not cross itself: its inside would not be defined");
            }
            requireAboveZero("area", area(corners));
        }

        /** Whether the closed line through these corners has an inside: it does not cross itself and is no mere line. */
        public static boolean hasInside(List<PixelPoint> corners) {
            return corners.size() >= 3 && !crossesItself(corners) && area(corners) > 0;
        }

        /** Whether two sides of the closed line that are not neighbours meet. */
        public static boolean crossesItself(List<PixelPoint> corners) {
            return SideCrossing.isIn(corners);
        }

        /** Crossings of the line to the right, odd inside (Jordan's curve theorem). */
        @Override
        public boolean contains(double x, double y) {
            boolean inside = false;
            PixelPoint p = corners.get(corners.size() - 1);
            for (PixelPoint q : corners) {
                boolean spans = q.y() > y != p.y() > y;
                if (spans && x < q.x() + (y - q.y()) * (p.x() - q.x()) / (p.y() - q.y())) {
                    inside = !inside;
                }
                p = q;
            }
            return inside;
        }

        @Override
        public double areaPixels() {
            return area(corners);
        }

        /** Half of the sum of cross products of the corners (Gauss's formula for the area of a polygon). */
        private static double area(List<PixelPoint> corners) {
            PixelPoint first = corners.get(0);
            double twice = 0;
            for (int n = 2; n < corners.size(); n++) {
                twice += first.turn(corners.get(n - 1), corners.get(n));
            }
            return Math.abs(twice) / 2;
        }

        @Override
        public double left() {
            return corners.stream().mapToDouble(PixelPoint::x).min().orElseThrow();
        }

        @Override
        public double top() {
            return corners.stream().mapToDouble(PixelPoint::y).min().orElseThrow();
        }

        @Override
        public double right() {
            return corners.stream().mapToDouble(PixelPoint::x).max().orElseThrow();
        }

        @Override
        public double bottom() {
            return corners.stream().mapToDouble(PixelPoint::y).max().orElseThrow();
        }
    }

    private static void requireAboveZero(String name, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(name + " must be finite and above 0, got " + value);
        }
    }
}
