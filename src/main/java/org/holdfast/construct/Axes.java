package org.holdfast.construct;

import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The construct's own anatomical axes, in which motion is told; right-handed: left × posterior = cranial.
 *
 * @param origin where they meet, mm
 * @param left unit direction to the patient's left
 * @param posterior unit direction to the back
 * @param cranial unit direction to the head
 */
public record Axes(PatientPoint origin, PatientVector left, PatientVector posterior, PatientVector cranial) {
    public Axes {
        Objects.requireNonNull(origin, "originMm");
        Rule.unit("left", left);
        Rule.unit("posterior", posterior);
        Rule.unit("cranial", cranial);
        Rule.perpendicular("posterior", posterior, "left", left);
        Rule.perpendicular("cranial", cranial, "left", left);
        Rule.perpendicular("cranial", cranial, "posterior", posterior);
        if (left.cross(posterior).dot(cranial) < 0) {
            throw new InvalidField(
                    "cranial", "the direction of left × posterior (right-handed axes)", Rule.text(cranial));
        }
    }
}
