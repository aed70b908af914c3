package org.holdfast.measure;

import org.holdfast.construct.Axes;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * A screw's axis in an exam, with the directions from which places round it are told.
 *
 * @param head head point
 * @param direction unit direction head → tip
 * @param zero unit direction of angle 0: as cranial as can be, by the construct's axes
 * @param quarter unit direction of 90°, right-handed about the direction
 */
record ScrewAxis(PatientPoint head, PatientVector direction, PatientVector zero, PatientVector quarter) {

    /** A cranial direction that leaves less than this across the screw gives no zero. */
    private static final double ALONG_TABLE = 0.05;

    /** The axis as laid out on the reference exam, in an exam's pose. */
    static ScrewAxis of(ScrewShape screw, Axes axes, RigidTransform referenceToExam) {
        PatientVector direction = screw.direction();
        PatientVector across =
                axes.cranial().minus(direction.times(axes.cranial().dot(direction)));
        PatientVector zero = across.norm() > ALONG_TABLE ? across.unit() : direction.anyPerpendicular();
        return of(referenceToExam.apply(screw.head()), referenceToExam.apply(direction), referenceToExam.apply(zero));
    }

    private static ScrewAxis of(PatientPoint head, PatientVector direction, PatientVector nearZero) {
        PatientVector zero =
                nearZero.minus(direction.times(nearZero.dot(direction))).unit();
        return new ScrewAxis(head, direction, zero, direction.cross(zero));
    }

    /** Distance along the axis from the head point. */
    double alongMm(PatientPoint p) {
        return p.minus(head).dot(direction);
    }

    /** Direction round the axis, in [0, 2π). */
    double angleRad(PatientVector across) {
        double turned = Math.atan2(across.dot(quarter), across.dot(zero));
        return turned < 0 ? turned + 2 * Math.PI : turned;
    }

    /**
     * The axis moved across itself, by so much at two places along it; distances along it hardly change.
     *
     * @param shifts {zero direction, quarter direction} at the first place and at the second
     */
    ScrewAxis shifted(double firstMm, double secondMm, double[][] shifts) {
        PatientPoint first = at(firstMm, shifts[0]);
        PatientPoint second = at(secondMm, shifts[1]);
        PatientVector turned = second.minus(first).unit();
        return of(first.along(turned, -firstMm), turned, zero);
    }

    private PatientPoint at(double alongMm, double[] shift) {
        return head.along(direction, alongMm).along(zero, shift[0]).along(quarter, shift[1]);
    }
}
