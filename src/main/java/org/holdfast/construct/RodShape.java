package org.holdfast.construct;

import java.util.List;
import org.holdfast.geometry.PatientPoint;

/**
 * A rod along a poly-line: round where two stretches meet, flat at its two ends.
 *
 * @param points at least two, each apart from the one before, mm
 * @param diameterMm diameter, mm
 */
public record RodShape(List<PatientPoint> points, double diameterMm) implements Shape {

    public RodShape {
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new InvalidField("pointsMm", "at least 2 points", points.size());
        }
        for (int n = 1; n < points.size(); n++) {
            Rule.apart("pointsMm[" + n + "]", points.get(n - 1), "pointsMm[" + (n - 1) + "]", points.get(n));
        }
        Rule.positive("diameterMm", diameterMm);
    }

    /** Length of the poly-line, mm. */
    public double lengthMm() {
        double length = 0;
        for (int n = 1; n < points.size(); n++) {
            length += points.get(n - 1).distanceTo(points.get(n));
        }
        return length;
    }

    /** Exact outside; inside, near a bend, nearer to 0 than the distance. */
    @Override
    public double signedDistanceMm(PatientPoint p) {
        double radius = 0.5 * diameterMm;
        double nearest = Double.POSITIVE_INFINITY;
        for (int n = 1; n < points.size(); n++) {
            double stretch = CappedCylinder.signedDistanceMm(p, points.get(n - 1), points.get(n), radius);
            nearest = Math.min(nearest, stretch);
            if (n < points.size() - 1) {
                nearest = Math.min(nearest, p.distanceTo(points.get(n)) - radius);
            }
        }
        return nearest;
    }
}
