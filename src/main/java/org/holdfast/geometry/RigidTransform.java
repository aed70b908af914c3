package org.holdfast.geometry;

import java.util.Arrays;
import java.util.Locale;

/**
 * A rotation followed by a translation, x ↦ R x + t, both ends in patient space (mm). Whoever holds one names both ends
 * in the variable ({@code referenceToExam}). Immutable.
 */
public final class RigidTransform {

    /** Changes nothing. */
    public static final RigidTransform IDENTITY =
            new RigidTransform(new double[] {1, 0, 0, 0, 1, 0, 0, 0, 1}, new PatientVector(0, 0, 0));

    /** Largest departure of RᵀR from the identity that is accepted in a matrix from outside. */
    private static final double ORTHONORMAL_TOLERANCE = 1e-5;

    private final double[] r;
    private final PatientVector t;

    private RigidTransform(double[] rotationRowMajor, PatientVector translation) {
        this.r = rotationRowMajor;
        this.t = translation;
    }

    /**
     * From a homogeneous matrix of 16 numbers, row by row.
     *
     * @throws IllegalArgumentException unless the last row is 0 0 0 1 and the upper left 3×3 block is a rotation
     *     (orthonormal within 1e-5, determinant +1)
     */
    public static RigidTransform ofMatrix(double[] rowMajor4x4) {
        if (rowMajor4x4.length != 16) {
            throw new IllegalArgumentException("a 4×4 matrix has 16 numbers, got " + rowMajor4x4.length);
        }
        double[] m = rowMajor4x4;
        if (m[12] != 0 || m[13] != 0 || m[14] != 0 || m[15] != 1) {
            throw new IllegalArgumentException(
                    "last row must be 0 0 0 1, got " + Arrays.toString(Arrays.copyOfRange(m, 12, 16)));
        }
        double[] rotation = {m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10]};
        requireRotation(rotation);
        return new RigidTransform(rotation, new PatientVector(m[3], m[7], m[11]));
    }

    /** A pure translation by a vector in mm. */
    public static RigidTransform translation(PatientVector translationMm) {
        return new RigidTransform(IDENTITY.r, translationMm);
    }

    /**
     * A right-handed rotation about an axis through a point (Rodrigues' formula).
     *
     * @param axis direction of the axis, any length above 1e-12
     * @param angleDeg angle in degrees
     * @param centre a point that stays where it is
     */
    public static RigidTransform rotation(PatientVector axis, double angleDeg, PatientPoint centre) {
        PatientVector a = axis.unit();
        double c = Math.cos(Math.toRadians(angleDeg));
        double s = Math.sin(Math.toRadians(angleDeg));
        double d = 1 - c;
        double[] m = {
            c + a.x() * a.x() * d,
            a.x() * a.y() * d - a.z() * s,
            a.x() * a.z() * d + a.y() * s,
            a.y() * a.x() * d + a.z() * s,
            c + a.y() * a.y() * d,
            a.y() * a.z() * d - a.x() * s,
            a.z() * a.x() * d - a.y() * s,
            a.z() * a.y() * d + a.x() * s,
            c + a.z() * a.z() * d
        };
        PatientVector offset = centre.minus(PatientPoint.ORIGIN);
        PatientVector turned = multiply(m, offset);
        return new RigidTransform(m, offset.minus(turned));
    }

    /** The image of a point. */
    public PatientPoint apply(PatientPoint p) {
        return new PatientPoint(
                r[0] * p.x() + r[1] * p.y() + r[2] * p.z() + t.x(),
                r[3] * p.x() + r[4] * p.y() + r[5] * p.z() + t.y(),
                r[6] * p.x() + r[7] * p.y() + r[8] * p.z() + t.z());
    }

    /** The image of a direction: turned, not moved. */
    public PatientVector apply(PatientVector v) {
        return multiply(r, v);
    }

    /** The transform that undoes this one. */
    public RigidTransform inverse() {
        double[] m = {r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]};
        return new RigidTransform(m, multiply(m, t).times(-1));
    }

    /** First this transform, then the next: x ↦ next(this(x)). */
    public RigidTransform then(RigidTransform next) {
        double[] m = new double[9];
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 3; column++) {
                for (int k = 0; k < 3; k++) {
                    m[3 * row + column] += next.r[3 * row + k] * r[3 * k + column];
                }
            }
        }
        return new RigidTransform(m, multiply(next.r, t).plus(next.t));
    }

    /** The translation part in mm: the image of the origin, as a vector. */
    public PatientVector translationMm() {
        return t;
    }

    /** The rotation angle in degrees, in [0, 180]. */
    public double rotationAngleDeg() {
        double sine = 0.5 * new PatientVector(r[7] - r[5], r[2] - r[6], r[3] - r[1]).norm();
        double cosine = 0.5 * (r[0] + r[4] + r[8] - 1);
        return Math.toDegrees(Math.atan2(sine, cosine));
    }

    /**
     * The rotation as a vector along its axis, right-handed, as long as the angle in degrees; zero for no rotation. Exact to
     * rounding below 179°; at 180° the axis' sign is open.
     */
    public PatientVector rotationVectorDeg() {
        PatientVector sines = new PatientVector(r[7] - r[5], r[2] - r[6], r[3] - r[1]).times(0.5);
        double sine = sines.norm();
        double angle = rotationAngleDeg();
        return sine < 1e-12 ? sines.times(Math.toDegrees(1)) : sines.times(angle / sine);
    }

    /** The homogeneous matrix as 16 numbers, row by row; a copy. */
    public double[] toMatrix() {
        return new double[] {r[0], r[1], r[2], t.x(), r[3], r[4], r[5], t.y(), r[6], r[7], r[8], t.z(), 0, 0, 0, 1};
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RigidTransform o && Arrays.equals(r, o.r) && t.equals(o.t);
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.hashCode(r) + t.hashCode();
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "rigid(%.3f°, translation (%.3f, %.3f, %.3f) mm)",
                rotationAngleDeg(),
                t.x(),
                t.y(),
                t.z());
    }

    private static PatientVector multiply(double[] m, PatientVector v) {
        return new PatientVector(
                m[0] * v.x() + m[1] * v.y() + m[2] * v.z(),
                m[3] * v.x() + m[4] * v.y() + m[5] * v.z(),
                m[6] * v.x() + m[7] * v.y() + m[8] * v.z());
    }

    private static void requireRotation(double[] m) {
        PatientVector a = new PatientVector(m[0], m[3], m[6]);
        PatientVector b = new PatientVector(m[1], m[4], m[7]);
        PatientVector c = new PatientVector(m[2], m[5], m[8]);
        double worst = Math.max(
                Math.max(Math.abs(a.norm() - 1), Math.abs(b.norm() - 1)),
                Math.max(
                        Math.max(Math.abs(a.dot(b)), Math.abs(a.dot(c))),
                        a.cross(b).minus(c).norm()));
        if (worst > ORTHONORMAL_TOLERANCE) {
            throw new IllegalArgumentException("upper left 3×3 block must be a rotation within " + ORTHONORMAL_TOLERANCE
                    + ", it is off by " + worst);
        }
    }
}
