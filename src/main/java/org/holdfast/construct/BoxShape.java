package org.holdfast.construct;

import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * An oriented box.
 *
 * @param centre its centre, mm
 * @param axes three unit directions at right angles to each other within 1e-3
 * @param halfMm half its extent along each axis, mm, three numbers above 0
 */
public record BoxShape(PatientPoint centre, List<PatientVector> axes, List<Double> halfMm) implements Shape {

    public BoxShape {
        Objects.requireNonNull(centre, "centreMm");
        axes = List.copyOf(axes);
        halfMm = List.copyOf(halfMm);
        if (axes.size() != 3) {
            throw new InvalidField("axes", "3 directions", axes.size());
        }
        if (halfMm.size() != 3) {
            throw new InvalidField("halfMm", "3 numbers", halfMm.size());
        }
        for (int n = 0; n < 3; n++) {
            Rule.unit("axes[" + n + "]", axes.get(n));
            Rule.positive("halfMm[" + n + "]", halfMm.get(n));
            for (int k = 0; k < n; k++) {
                Rule.perpendicular("axes[" + n + "]", axes.get(n), "axes[" + k + "]", axes.get(k));
            }
        }
    }

    @Override
    public double signedDistanceMm(PatientPoint p) {
        PatientVector offset = p.minus(centre);
        double outsideSquared = 0;
        double furthest = Double.NEGATIVE_INFINITY;
        for (int n = 0; n < 3; n++) {
            double beyond = Math.abs(offset.dot(axes.get(n))) - halfMm.get(n);
            furthest = Math.max(furthest, beyond);
            outsideSquared += beyond > 0 ? beyond * beyond : 0;
        }
        return furthest > 0 ? Math.sqrt(outsideSquared) : furthest;
    }
}
