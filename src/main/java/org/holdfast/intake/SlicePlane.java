package org.holdfast.intake;

import java.util.Optional;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Where a slice lies in patient space (PS3.3, section C.7.6.2). Immutable.
 *
 * @param position centre of the first pixel, ImagePositionPatient
 * @param rowDirection direction in which the column index rises, as written
 * @param columnDirection direction in which the row index rises, as written
 * @param rowSpacingMm distance between rows, the first value of PixelSpacing
 * @param columnSpacingMm distance between columns, the second value of PixelSpacing
 */
public record SlicePlane(
        PatientPoint position,
        PatientVector rowDirection,
        PatientVector columnDirection,
        double rowSpacingMm,
        double columnSpacingMm) {

    /** Direction cosines may be off unit length and right angles by this much. */
    static final double ORIENTATION_TOLERANCE = 1e-3;

    /** Spacings that differ by less than this share are the same one written differently. */
    static final double SPACING_TOLERANCE = 1e-4;

    /** The plane that a header describes; empty if position, orientation or spacing is missing or impossible. */
    static Optional<SlicePlane> of(DataSet d) {
        double[] p = d.decimals(Tag.IMAGE_POSITION_PATIENT);
        double[] o = d.decimals(Tag.IMAGE_ORIENTATION_PATIENT);
        double[] spacing = d.decimals(Tag.PIXEL_SPACING);
        if (p.length != 3 || o.length != 6 || spacing.length != 2 || !(spacing[0] > 0) || !(spacing[1] > 0)) {
            return Optional.empty();
        }
        PatientVector u = new PatientVector(o[0], o[1], o[2]);
        PatientVector v = new PatientVector(o[3], o[4], o[5]);
        double off = Math.max(Math.abs(u.dot(v)), Math.max(Math.abs(u.norm() - 1), Math.abs(v.norm() - 1)));
        return off > ORIENTATION_TOLERANCE
                ? Optional.empty()
                : Optional.of(new SlicePlane(new PatientPoint(p[0], p[1], p[2]), u, v, spacing[0], spacing[1]));
    }

    /** Position along the normal of a plane (row direction × column direction), mm. */
    double positionAlong(SlicePlane reference) {
        PatientVector normal =
                reference.rowDirection.cross(reference.columnDirection).unit();
        return position.minus(PatientPoint.ORIGIN).dot(normal);
    }

    /** Whether orientation (within 1e-3 in each cosine) and pixel spacing are those of another plane. */
    boolean isParallelTo(SlicePlane other) {
        return isNear(rowDirection.minus(other.rowDirection))
                && isNear(columnDirection.minus(other.columnDirection))
                && isSameSpacing(rowSpacingMm, other.rowSpacingMm)
                && isSameSpacing(columnSpacingMm, other.columnSpacingMm);
    }

    private static boolean isNear(PatientVector d) {
        return Math.max(Math.abs(d.x()), Math.max(Math.abs(d.y()), Math.abs(d.z()))) <= ORIENTATION_TOLERANCE;
    }

    private static boolean isSameSpacing(double a, double b) {
        return Math.abs(a - b) <= SPACING_TOLERANCE * Math.max(a, b);
    }
}
