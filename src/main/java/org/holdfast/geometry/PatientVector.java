package org.holdfast.geometry;

/** A displacement (mm) or a direction (unit length) in patient space (DICOM LPS). Immutable. */
public record PatientVector(double x, double y, double z) {

    /** To the patient's left. */
    public static final PatientVector LEFT = new PatientVector(1, 0, 0);
    /** To the patient's back. */
    public static final PatientVector POSTERIOR = new PatientVector(0, 1, 0);
    /** To the patient's head. */
    public static final PatientVector CRANIAL = new PatientVector(0, 0, 1);

    public PatientVector {
        PatientPoint.requireFinite(x, y, z, "vector");
    }

    /** Sum. */
    public PatientVector plus(PatientVector o) {
        return new PatientVector(x + o.x, y + o.y, z + o.z);
    }

    /** Difference. */
    public PatientVector minus(PatientVector o) {
        return new PatientVector(x - o.x, y - o.y, z - o.z);
    }

    /** Product with a number. */
    public PatientVector times(double factor) {
        return new PatientVector(factor * x, factor * y, factor * z);
    }

    /** Scalar product. */
    public double dot(PatientVector o) {
        return x * o.x + y * o.y + z * o.z;
    }

    /** Vector product, right-handed: LEFT × POSTERIOR = CRANIAL. */
    public PatientVector cross(PatientVector o) {
        return new PatientVector(y * o.z - z * o.y, z * o.x - x * o.z, x * o.y - y * o.x);
    }

    /** Euclidean length. */
    public double norm() {
        return Math.sqrt(x * x + y * y + z * z);
    }

    /**
     * The direction of this vector, length 1.
     *
     * @throws IllegalArgumentException if the vector is shorter than 1e-12
     */
    public PatientVector unit() {
        double length = norm();
        if (length < 1e-12) {
            throw new IllegalArgumentException("a vector of length " + length + " has no direction");
        }
        return times(1 / length);
    }

    /** The angle to another vector, degrees in [0, 180]; exact near 0 and 180 where an arc cosine is not. */
    public double angleDegTo(PatientVector o) {
        return Math.toDegrees(Math.atan2(cross(o).norm(), dot(o)));
    }

    /** A unit vector at right angles to this one; which one is fixed by this vector alone. */
    public PatientVector anyPerpendicular() {
        PatientVector u = unit();
        PatientVector helper = Math.abs(u.x) < 0.6 ? LEFT : POSTERIOR;
        return helper.minus(u.times(helper.dot(u))).unit();
    }
}
