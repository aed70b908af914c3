package org.holdfast.desktop.viewmodel;

import org.holdfast.construct.CutAxes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.CutPlane;

/**
 * From places in an exam to places on its picture and back, logical pixels from the picture's upper left edge. Immutable.
 *
 * @param plane the picture's plane, a pixel of it a device pixel
 * @param scale device pixels to a logical one, above 0
 */
public record FlatPicture(CutPlane plane, double scale) {

    /** Distance from the left edge. */
    public double x(PatientPoint p) {
        double side = plane.stepRight().norm();
        return (p.minus(plane.origin()).dot(plane.stepRight()) / (side * side) + 0.5) / scale;
    }

    /** Distance from the upper edge. */
    public double y(PatientPoint p) {
        double side = plane.stepDown().norm();
        return (p.minus(plane.origin()).dot(plane.stepDown()) / (side * side) + 0.5) / scale;
    }

    /** The place under a point of the picture. */
    public PatientPoint place(double x, double y) {
        return plane.pixelToPatient(x * scale - 0.5, y * scale - 0.5);
    }

    /** How the picture lies. */
    public CutAxes axes() {
        return new CutAxes(plane.stepRight(), plane.stepDown());
    }
}
