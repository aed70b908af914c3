package org.holdfast.construct;

import java.util.Objects;
import org.holdfast.geometry.PatientVector;

/**
 * How a cut lies on a picture, in the space of the construct. Immutable.
 *
 * @param right direction of the picture's right; unit
 * @param down direction of the picture's bottom; unit, at right angles to {@code right}
 */
public record CutAxes(PatientVector right, PatientVector down) {

    public CutAxes {
        Objects.requireNonNull(right, "right");
        Objects.requireNonNull(down, "down");
        right = right.unit();
        if (Math.abs(right.dot(down.unit())) > 1e-6) {
            throw new IllegalArgumentException("right and down must be at right angles, got " + right + " and " + down);
        }
        down = down.unit();
    }

    /** Unit normal, right × down: away from the viewer. A step forward along the cut goes this way. */
    public PatientVector normal() {
        return right.cross(down).unit();
    }

    /**
     * The plane of two directions, laid on a picture as the trade does: cranial up where the plane has it, else anterior
     * up; the patient's right on the left, else anterior on the left.
     *
     * @param first a direction in the plane, any length
     * @param second another, at right angles to it
     * @param axes the construct's anatomical axes
     */
    static CutAxes upright(PatientVector first, PatientVector second, Axes axes) {
        PatientVector a = first.unit();
        PatientVector b = second.unit();
        PatientVector cranial = axes.cranial().unit();
        PatientVector posterior = axes.posterior().unit();
        boolean hasCranial = Math.max(Math.abs(a.dot(cranial)), Math.abs(b.dot(cranial))) > LEANS;
        PatientVector bottom = hasCranial ? cranial.times(-1) : posterior;
        boolean firstIsVertical = Math.abs(a.dot(bottom)) > Math.abs(b.dot(bottom));
        PatientVector vertical = firstIsVertical ? a : b;
        PatientVector horizontal = firstIsVertical ? b : a;
        PatientVector down = vertical.dot(bottom) < 0 ? vertical.times(-1) : vertical;
        PatientVector left = axes.left().unit();
        boolean runsAcross = Math.abs(horizontal.dot(left)) > Math.abs(horizontal.dot(posterior));
        PatientVector wished = runsAcross ? left : posterior;
        return new CutAxes(horizontal.dot(wished) < 0 ? horizontal.times(-1) : horizontal, down);
    }

    /** A direction that leans this much towards cranial can be shown with cranial up. */
    private static final double LEANS = 0.5;
}
