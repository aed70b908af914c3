package org.holdfast.registration;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * How well a pose is known. A small motion of the exam's side is u(x) = t + ω × (x − centre); the covariance is that of
 * (t, ω) in mm and radians, from the scatter between blocks of neighbouring residuals, so that neighbours that err
 * together are not counted as independent.
 *
 * <p>Motions that the points do not determine (a cylinder spins, a plane slides) carry no variance of their own: they are
 * listed, and whatever depends on them has no standard error. Immutable.
 */
public final class PoseUncertainty {

    /** An undetermined motion (of RMS length 1 over the points) that shows with less than this is left aside. */
    private static final double SHOWS = 0.05;

    /**
     * A motion that the points do not determine, scaled so that its root mean square length over the points is 1 mm.
     *
     * @param translationMm of the centre, mm
     * @param rotationDeg about the centre, degrees, right-handed
     */
    public record FreeMotion(PatientVector translationMm, PatientVector rotationDeg) {}

    private final PatientPoint centre;
    private final double[][] covariance;
    private final List<FreeMotion> freeMotions;

    PoseUncertainty(PatientPoint centre, double[][] covariance, List<FreeMotion> freeMotions) {
        this.centre = Objects.requireNonNull(centre, "centre");
        this.covariance = new double[6][];
        for (int row = 0; row < 6; row++) {
            this.covariance[row] = covariance[row].clone();
        }
        this.freeMotions = List.copyOf(freeMotions);
    }

    /** The point about which rotations are meant, in the exam's patient space. */
    public PatientPoint centre() {
        return centre;
    }

    /** Covariance of (t x y z in mm, ω x y z in radians), 6 × 6; a copy. */
    public double[][] covariance() {
        double[][] copy = new double[6][];
        for (int row = 0; row < 6; row++) {
            copy[row] = covariance[row].clone();
        }
        return copy;
    }

    /** Motions that the points do not determine; empty where all six degrees of freedom are. */
    public List<FreeMotion> freeMotions() {
        return freeMotions;
    }

    /** Whether all six degrees of freedom are determined. */
    public boolean isFullyDetermined() {
        return freeMotions.isEmpty();
    }

    /**
     * Standard error of where a point lies along a direction, mm; empty where that depends on an undetermined motion.
     *
     * @param at a point of the exam's patient space
     * @param direction any length above 1e-12
     */
    public OptionalDouble placeErrorMm(PatientPoint at, PatientVector direction) {
        PatientVector d = direction.unit();
        PatientVector lever = at.minus(centre).cross(d);
        return errorOf(new double[] {d.x(), d.y(), d.z(), lever.x(), lever.y(), lever.z()}, 1);
    }

    /** Standard error of the rotation about an axis, degrees; empty where that depends on an undetermined motion. */
    public OptionalDouble rotationErrorDeg(PatientVector axis) {
        PatientVector a = axis.unit();
        OptionalDouble radians = errorOf(new double[] {0, 0, 0, a.x(), a.y(), a.z()}, typicalRadiusMm());
        return radians.isEmpty() ? radians : OptionalDouble.of(Math.toDegrees(radians.getAsDouble()));
    }

    /** A rotation counts as shown by the way that it moves points; without free motions the radius does not matter. */
    private double typicalRadiusMm() {
        double largest = 0;
        for (FreeMotion free : freeMotions) {
            largest = Math.max(largest, Math.toRadians(free.rotationDeg().norm()));
        }
        return largest > 0 ? 1 / largest : 1;
    }

    private OptionalDouble errorOf(double[] row, double scaleMm) {
        for (FreeMotion free : freeMotions) {
            PatientVector t = free.translationMm();
            PatientVector w = free.rotationDeg().times(Math.toRadians(1));
            double shown =
                    row[0] * t.x() + row[1] * t.y() + row[2] * t.z() + row[3] * w.x() + row[4] * w.y() + row[5] * w.z();
            if (Math.abs(shown) * scaleMm > SHOWS) {
                return OptionalDouble.empty();
            }
        }
        double variance = 0;
        for (int a = 0; a < 6; a++) {
            for (int b = 0; b < 6; b++) {
                variance += row[a] * covariance[a][b] * row[b];
            }
        }
        return OptionalDouble.of(Math.sqrt(Math.max(0, variance)));
    }
}
