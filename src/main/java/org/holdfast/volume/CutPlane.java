package org.holdfast.volume;

import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A rectangle of pixels in patient space on which a volume is cut. Immutable. Pixel (x, y), 0-based, has its centre at
 * origin + x · stepRight + y · stepDown.
 *
 * @param origin centre of pixel (0, 0), mm
 * @param stepRight from one pixel to its right neighbour, mm; any length, not parallel to stepDown
 * @param stepDown from one pixel to the one below, mm; need not be at right angles to stepRight
 * @param width pixels in a row, ≥ 1
 * @param height rows, ≥ 1; width · height must stay within 2^31 − 1
 */
public record CutPlane(PatientPoint origin, PatientVector stepRight, PatientVector stepDown, int width, int height) {

    public CutPlane {
        Objects.requireNonNull(origin, "origin");
        if (width < 1 || height < 1 || (long) width * height > Integer.MAX_VALUE) {
            throw new IllegalArgumentException(
                    "width and height must be at least 1 and their product at most 2147483647, got " + width + " × "
                            + height);
        }
        double area = stepRight.cross(stepDown).norm();
        if (!(area > 1e-9 * stepRight.norm() * stepDown.norm())) {
            throw new IllegalArgumentException(
                    "stepRight and stepDown must span a plane, got " + stepRight + " and " + stepDown);
        }
    }

    /**
     * A plane with square pixels around a centre.
     *
     * @param centre the middle of the picture, mm: between the middle pixels where their number is even
     * @param right direction of rising x, any length
     * @param down direction of rising y, any length; the part of it along {@code right} is taken out
     * @param pixelMm side of a pixel, mm, above 0
     * @param width pixels in a row
     * @param height rows
     */
    public static CutPlane centredOn(
            PatientPoint centre, PatientVector right, PatientVector down, double pixelMm, int width, int height) {
        if (!(pixelMm > 0)) {
            throw new IllegalArgumentException("pixelMm must be above 0, got " + pixelMm);
        }
        PatientVector x = right.unit();
        PatientVector y = down.minus(x.times(down.dot(x))).unit();
        PatientPoint origin = centre.along(x, -0.5 * (width - 1) * pixelMm).along(y, -0.5 * (height - 1) * pixelMm);
        return new CutPlane(origin, x.times(pixelMm), y.times(pixelMm), width, height);
    }

    /** The place of a pixel, or between pixels; extrapolates outside the picture. */
    public PatientPoint pixelToPatient(double x, double y) {
        return origin.along(stepRight, x).along(stepDown, y);
    }

    /** Unit normal, stepRight × stepDown: away from the viewer for a picture seen with x to the right and y down. */
    public PatientVector normal() {
        return stepRight.cross(stepDown).unit();
    }
}
