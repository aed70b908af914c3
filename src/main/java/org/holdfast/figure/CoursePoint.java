package org.holdfast.figure;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * What one exam says about one interface. Immutable. Fractions are 0 to 1 of the interface's face.
 *
 * @param contact contact fraction; empty where it is not stated
 * @param low lower bound of the contact fraction; stated with it
 * @param high upper bound of the contact fraction; stated with it
 * @param smallestVisibleGapMm smallest gap that the scan shows, mm; empty where it is not known
 * @param truth true contact fraction of a phantom; empty for a patient
 * @param why why the fraction is not stated; empty where it is stated
 */
public record CoursePoint(
        OptionalDouble contact,
        OptionalDouble low,
        OptionalDouble high,
        OptionalDouble smallestVisibleGapMm,
        OptionalDouble truth,
        String why) {

    public CoursePoint {
        requireFraction(contact, "contact");
        requireFraction(low, "low");
        requireFraction(high, "high");
        requireFraction(truth, "truth");
        Objects.requireNonNull(smallestVisibleGapMm, "smallestVisibleGapMm");
        Objects.requireNonNull(why, "why");
        if (contact.isPresent() != low.isPresent() || contact.isPresent() != high.isPresent()) {
            throw new IllegalArgumentException("a contact fraction goes with both its bounds, or none is stated");
        }
        if (contact.isPresent() == !why.isEmpty()) {
            throw new IllegalArgumentException(
                    "either the fraction is stated or the reason why not, got reason '" + why + "'");
        }
    }

    /** A point whose fraction is stated. */
    public static CoursePoint stated(double contact, double low, double high) {
        OptionalDouble none = OptionalDouble.empty();
        return new CoursePoint(
                OptionalDouble.of(contact), OptionalDouble.of(low), OptionalDouble.of(high), none, none, "");
    }

    /** A point whose fraction is not stated, and why. */
    public static CoursePoint notStated(String why) {
        OptionalDouble none = OptionalDouble.empty();
        return new CoursePoint(none, none, none, none, none, why);
    }

    /** This point with the smallest gap, in mm, that the scan shows. */
    public CoursePoint withSmallestVisibleGapMm(double gapMm) {
        return new CoursePoint(contact, low, high, OptionalDouble.of(gapMm), truth, why);
    }

    /** This point with the phantom's true contact fraction. */
    public CoursePoint withTruth(double fraction) {
        return new CoursePoint(contact, low, high, smallestVisibleGapMm, OptionalDouble.of(fraction), why);
    }

    private static void requireFraction(OptionalDouble fraction, String name) {
        if (fraction.isPresent() && !(fraction.getAsDouble() >= 0 && fraction.getAsDouble() <= 1)) {
            throw new IllegalArgumentException(name + " must lie in [0, 1], got " + fraction.getAsDouble());
        }
    }
}
