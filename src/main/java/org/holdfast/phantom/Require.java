package org.holdfast.phantom;

import java.util.Locale;
import org.holdfast.geometry.PatientVector;

/** Checks of arguments that several solids share. */
final class Require {

    private static final double ORTHONORMAL_TOLERANCE = 1e-6;

    private Require() {}

    static void positive(double value, String name) {
        if (!(value > 0) || !Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be positive and finite, got " + value);
        }
    }

    static void notNegative(double value, String name) {
        if (!(value >= 0) || !Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be 0 or more and finite, got " + value);
        }
    }

    static void finite(double value, String name) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be finite, got " + value);
        }
    }

    static void orthonormal(PatientVector a, PatientVector b, PatientVector c) {
        double worst = Math.max(
                Math.max(Math.abs(a.dot(b)), Math.max(Math.abs(a.dot(c)), Math.abs(b.dot(c)))),
                Math.max(Math.abs(a.norm() - 1), Math.max(Math.abs(b.norm() - 1), Math.abs(c.norm() - 1))));
        if (worst > ORTHONORMAL_TOLERANCE) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "axes must be orthonormal within 1e-6, they are off by %.3g", worst));
        }
    }
}
