package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Point2D;
import javafx.scene.shape.Polygon;

/** Outlines of which a schematic is made, logical px. */
final class FrontShapes {

    private static final double THREAD_PITCH_PX = 4;

    private FrontShapes() {}

    /** A band along a line, so wide on each side and so much longer at each end. */
    static Polygon band(List<Point2D> line, double halfWidth, double beyond) {
        List<Point2D> points = lengthened(line, beyond);
        List<Point2D> one = new ArrayList<>();
        List<Point2D> other = new ArrayList<>();
        for (int n = 0; n < points.size(); n++) {
            Point2D before = n > 0 ? direction(points, n - 1) : direction(points, n);
            Point2D after = n < points.size() - 1 ? direction(points, n) : before;
            Point2D side = perpendicular(
                    before.add(after).magnitude() > 0.1 ? before.add(after).normalize() : after);
            one.add(points.get(n).add(side.multiply(halfWidth)));
            other.add(0, points.get(n).subtract(side.multiply(halfWidth)));
        }
        one.addAll(other);
        return polygon(one);
    }

    /** A screw's shank with the teeth of its thread, pointed at the end. */
    static Polygon thread(Point2D from, Point2D to, double halfWidth) {
        Point2D way = to.subtract(from);
        double length = way.magnitude();
        Point2D along = way.normalize();
        Point2D side = perpendicular(along);
        List<Point2D> one = new ArrayList<>();
        List<Point2D> other = new ArrayList<>();
        double end = length - THREAD_PITCH_PX;
        for (int n = 0; n * THREAD_PITCH_PX / 2 <= end; n++) {
            Point2D at = from.add(along.multiply(n * THREAD_PITCH_PX / 2));
            Point2D reach = side.multiply(n % 2 == 0 ? 0.55 * halfWidth : halfWidth);
            one.add(at.add(reach));
            other.add(0, at.subtract(reach));
        }
        one.add(to);
        one.addAll(other);
        return polygon(one);
    }

    /** The stretch of a line between two shares of its length. */
    static List<Point2D> stretch(List<Point2D> line, double from, double to) {
        double length = lengthOf(line);
        List<Point2D> points = new ArrayList<>();
        points.add(pointAt(line, from * length));
        double gone = 0;
        for (int n = 1; n < line.size() - 1; n++) {
            gone += line.get(n).distance(line.get(n - 1));
            if (gone > from * length && gone < to * length) {
                points.add(line.get(n));
            }
        }
        points.add(pointAt(line, to * length));
        return points;
    }

    static double lengthOf(List<Point2D> line) {
        double length = 0;
        for (int n = 1; n < line.size(); n++) {
            length += line.get(n).distance(line.get(n - 1));
        }
        return length;
    }

    private static Point2D pointAt(List<Point2D> line, double distance) {
        double left = distance;
        for (int n = 1; n < line.size(); n++) {
            double piece = line.get(n).distance(line.get(n - 1));
            if (left <= piece && piece > 0) {
                return line.get(n - 1).interpolate(line.get(n), left / piece);
            }
            left -= piece;
        }
        return line.get(line.size() - 1);
    }

    /** A line seen end on has no direction: across, then. */
    private static Point2D direction(List<Point2D> points, int n) {
        Point2D way = points.get(n + 1).subtract(points.get(n));
        return way.magnitude() < 1e-6 ? new Point2D(1, 0) : way.normalize();
    }

    private static List<Point2D> lengthened(List<Point2D> line, double beyond) {
        List<Point2D> points = new ArrayList<>(line);
        int last = points.size() - 1;
        Point2D first = direction(points, 0);
        Point2D end = direction(points, last - 1);
        points.set(0, points.get(0).subtract(first.multiply(beyond)));
        points.set(last, points.get(last).add(end.multiply(beyond)));
        return points;
    }

    private static Point2D perpendicular(Point2D direction) {
        return new Point2D(-direction.getY(), direction.getX());
    }

    private static Polygon polygon(List<Point2D> points) {
        Polygon polygon = new Polygon();
        points.forEach(point -> polygon.getPoints().addAll(point.getX(), point.getY()));
        return polygon;
    }
}
