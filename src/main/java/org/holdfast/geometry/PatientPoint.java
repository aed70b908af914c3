package org.holdfast.geometry;

/**
 * A point in patient space (DICOM LPS), mm. Immutable.
 *
 * @param x mm to the patient's left
 * @param y mm to posterior
 * @param z mm to cranial
 */
public record PatientPoint(double x, double y, double z) {

    /** The origin of the frame of reference. */
    public static final PatientPoint ORIGIN = new PatientPoint(0, 0, 0);

    public PatientPoint {
        requireFinite(x, y, z, "point");
    }

    /** This point moved by a vector. */
    public PatientPoint plus(PatientVector v) {
        return new PatientPoint(x + v.x(), y + v.y(), z + v.z());
    }

    /** This point moved along a direction by so many mm (if the direction has unit length). */
    public PatientPoint along(PatientVector direction, double distanceMm) {
        return new PatientPoint(
                x + distanceMm * direction.x(), y + distanceMm * direction.y(), z + distanceMm * direction.z());
    }

    /** The vector from the other point to this one. */
    public PatientVector minus(PatientPoint other) {
        return new PatientVector(x - other.x, y - other.y, z - other.z);
    }

    /** Euclidean distance, mm. */
    public double distanceTo(PatientPoint other) {
        return minus(other).norm();
    }

    /** The point at {@code fraction} of the way from this one (0) to the other (1); extrapolates outside [0, 1]. */
    public PatientPoint towards(PatientPoint other, double fraction) {
        return new PatientPoint(
                x + fraction * (other.x - x), y + fraction * (other.y - y), z + fraction * (other.z - z));
    }

    static void requireFinite(double x, double y, double z, String what) {
        if (!Double.isFinite(x) || !Double.isFinite(y) || !Double.isFinite(z)) {
            throw new IllegalArgumentException(
                    "coordinates of a " + what + " must be finite, got (" + x + ", " + y + ", " + z + ")");
        }
    }
}
