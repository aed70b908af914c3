package org.holdfast.measure;

import java.util.Objects;
import org.holdfast.construct.ComponentKind;
import org.holdfast.geometry.PatientVector;

/**
 * How far two examinations without any true motion differ: 1.96 SD of each component of translation and rotation.
 *
 * @param translationMm largest of the three axes, mm, above 0
 * @param rotationDeg largest of the three axes, degrees, above 0
 * @param source where the figures come from, in words
 */
record Repeatability(double translationMm, double rotationDeg, String source) {

    private static final String SIMULATED = "simulated repeats, a lower bound";
    private static final String GIVEN = "given for this scanner";

    // Computed: MigrationValidation, draws 0 and 1, 1.96 SD of repeats by axis at most: body 0.035 mm and 0.029°; screw
    // 0.031 mm, its angle 0.059°, its spin left out. Rounded up.
    private static final Repeatability BODY = new Repeatability(0.05, 0.10, SIMULATED);
    private static final Repeatability SCREW = new Repeatability(0.10, 0.15, SIMULATED);

    Repeatability {
        if (!(translationMm > 0 && rotationDeg > 0)) {
            throw new IllegalArgumentException(
                    "repeatability must be above 0, got " + translationMm + " mm and " + rotationDeg + "°");
        }
        Objects.requireNonNull(source, "source");
    }

    /** What the settings give, each figure where it is above 0, else that of simulated repeats of such a part. */
    static Repeatability of(ComponentKind.Family family, MotionSettings settings) {
        Repeatability simulated = family == ComponentKind.Family.BODY ? BODY : SCREW;
        boolean givenMm = settings.repeatabilityMm() > 0;
        boolean givenDeg = settings.repeatabilityDeg() > 0;
        String source = givenMm && givenDeg
                ? GIVEN
                : givenMm
                        ? "translation " + GIVEN + ", rotation " + SIMULATED
                        : givenDeg ? "translation " + SIMULATED + ", rotation " + GIVEN : SIMULATED;
        return new Repeatability(
                givenMm ? settings.repeatabilityMm() : simulated.translationMm,
                givenDeg ? settings.repeatabilityDeg() : simulated.rotationDeg,
                source);
    }

    /** Whether no component of a motion exceeds its figure; exactly the figure is within error. */
    boolean covers(PatientVector motionMm, PatientVector motionDeg) {
        return largest(motionMm) <= translationMm && largest(motionDeg) <= rotationDeg;
    }

    private static double largest(PatientVector v) {
        return Math.max(Math.abs(v.x()), Math.max(Math.abs(v.y()), Math.abs(v.z())));
    }
}
