package org.holdfast.construct;

import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** The rules that several records of the construct share; each throws {@link InvalidField}. */
final class Rule {

    /** Largest departure of a direction from unit length, and of two directions from a right angle (as cosine). */
    static final double DIRECTION_TOLERANCE = 1e-3;

    private static final Pattern ID = Pattern.compile("[a-z0-9-]+");
    private static final Pattern UID = Pattern.compile("[0-9]+(\\.[0-9]+)*");
    /** DICOM PS3.5 section 9: a UID has at most 64 characters. */
    private static final int UID_LENGTH = 64;

    private Rule() {}

    static void id(String field, String id) {
        Objects.requireNonNull(id, field);
        if (!ID.matcher(id).matches()) {
            throw new InvalidField(field, "lower-case letters, digits and hyphens ([a-z0-9-]+)", quoted(id));
        }
    }

    static void uid(String field, String uid) {
        Objects.requireNonNull(uid, field);
        if (uid.length() > UID_LENGTH || !UID.matcher(uid).matches()) {
            throw new InvalidField(field, "a DICOM UID (digits and dots, at most 64 characters)", quoted(uid));
        }
    }

    static void label(String field, String label) {
        Objects.requireNonNull(label, field);
        if (label.isBlank()) {
            throw new InvalidField(field, "words that a reader sees", quoted(label));
        }
    }

    static void atLeastOne(String field, int value) {
        if (value < 1) {
            throw new InvalidField(field, "a whole number of at least 1", value);
        }
    }

    static void positive(String field, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new InvalidField(field, "a number above 0", value);
        }
    }

    static void apart(String field, PatientPoint a, String otherField, PatientPoint b) {
        Objects.requireNonNull(a, otherField);
        Objects.requireNonNull(b, field);
        if (a.distanceTo(b) < 1e-6) {
            throw new InvalidField(field, "a point apart from " + otherField, text(b));
        }
    }

    static void unit(String field, PatientVector v) {
        Objects.requireNonNull(v, field);
        if (Math.abs(v.norm() - 1) > DIRECTION_TOLERANCE) {
            throw new InvalidField(
                    field, "a direction of length 1 within " + DIRECTION_TOLERANCE, text(v) + " of length " + v.norm());
        }
    }

    static void perpendicular(String field, PatientVector v, String otherField, PatientVector other) {
        double cosine = v.dot(other);
        if (Math.abs(cosine) > DIRECTION_TOLERANCE) {
            throw new InvalidField(
                    field,
                    "a direction at right angles to " + otherField + " within " + DIRECTION_TOLERANCE,
                    text(v) + " with the cosine " + cosine);
        }
    }

    static <T> List<T> notEmpty(String field, List<T> list) {
        if (list.isEmpty()) {
            throw new InvalidField(field, "at least one", "none");
        }
        return List.copyOf(list);
    }

    static String quoted(String text) {
        return '"' + text + '"';
    }

    static String text(PatientPoint p) {
        return "[" + p.x() + ", " + p.y() + ", " + p.z() + "]";
    }

    static String text(PatientVector v) {
        return "[" + v.x() + ", " + v.y() + ", " + v.z() + "]";
    }
}
