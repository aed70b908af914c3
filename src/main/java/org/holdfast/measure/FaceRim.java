package org.holdfast.measure;

import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Near the rim of a face a column of voxels would see beyond the implant's side, where the profile is no longer that of a
 * plane face. Its column is moved inwards so far that the side stays out of sight; the rim is thus read a little further
 * in, by at most the column's radius and the blur's reach.
 */
final class FaceRim {

    /** How far beyond the column's radius the side is kept off: about 1.3 σ of a usual body kernel, mm. */
    private static final double BLUR_MM = 0.6;

    private static final double DELTA_MM = 0.05;
    /** A corner has two sides. */
    private static final int SIDES = 2;
    /** The nearest surface lies to the side if the way to it is so far across the normal at least. */
    private static final double ACROSS = 0.7;

    private FaceRim() {}

    /** The way from a sample to where its column is read, mm; zero where the side is far, or the part has no distance. */
    static PatientVector inwards(Shape shape, PatchSample sample, MeasurementSettings settings) {
        PatientVector way = new PatientVector(0, 0, 0);
        if (!shape.hasDistance()) {
            return way;
        }
        double clear = settings.fit().columnRadiusMm() + BLUR_MM;
        PatientVector one = sample.normal().anyPerpendicular();
        PatientVector two = sample.normal().cross(one);
        for (int side = 0; side < SIDES; side++) {
            PatientPoint inside = sample.point().plus(way).along(sample.normal(), -clear);
            double distance = -shape.signedDistanceMm(inside);
            if (!(distance > 0 && distance < clear)) {
                return way;
            }
            double alongOne = slope(shape, inside, one);
            double alongTwo = slope(shape, inside, two);
            if (Math.hypot(alongOne, alongTwo) < ACROSS) {
                return way;
            }
            // Distances grow inwards, so the way in is against the slope of the signed distance.
            PatientVector in = one.times(-alongOne).plus(two.times(-alongTwo)).unit();
            way = way.plus(in.times(clear - distance));
        }
        return way;
    }

    private static double slope(Shape shape, PatientPoint at, PatientVector direction) {
        return (shape.signedDistanceMm(at.along(direction, DELTA_MM))
                        - shape.signedDistanceMm(at.along(direction, -DELTA_MM)))
                / (2 * DELTA_MM);
    }
}
