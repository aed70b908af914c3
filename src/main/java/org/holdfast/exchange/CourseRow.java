package org.holdfast.exchange;

import java.util.Objects;
import org.holdfast.measure.Stated;

/**
 * One interface on one exam, as a line of a table. Immutable. All fractions are 0 to 1.
 *
 * @param exam what the exam is called
 * @param daysSinceSurgery day of the exam, days after surgery
 * @param boneInterface what the interface is called
 * @param contactFraction contact of the assessable area
 * @param contactLow lower bound: what is not assessable counted as none
 * @param contactHigh upper bound: what is not assessable counted as contact
 * @param smallestVisibleGapMm smallest gap that the scan shows, mm
 * @param bridgedFraction contact that hangs together with the host bone
 * @param notAssessableFraction share of the area that cannot be assessed
 * @param boneHu HU from which something counts as bone
 * @param hostHu HU of the host bone
 * @param sensitivity contact at other bone thresholds
 * @param jitterSd standard deviation of the contact fraction under half-voxel shifts
 * @param byFit the same by fit
 * @param verdict what may be concluded at all
 * @param cause why, where the verdict is limited; may be empty
 * @param truthFraction true contact of a phantom
 */
public record CourseRow(
        String exam,
        Stated daysSinceSurgery,
        String boneInterface,
        Stated contactFraction,
        Stated contactLow,
        Stated contactHigh,
        Stated smallestVisibleGapMm,
        Stated bridgedFraction,
        Stated notAssessableFraction,
        Stated boneHu,
        Stated hostHu,
        Sensitivity sensitivity,
        Stated jitterSd,
        ByFit byFit,
        String verdict,
        String cause,
        Stated truthFraction) {

    /** Contact fraction with the bone threshold lowered and raised by 50 and 100 HU. Immutable. */
    public record Sensitivity(Stated minus100Hu, Stated minus50Hu, Stated plus50Hu, Stated plus100Hu) {

        public Sensitivity {
            Objects.requireNonNull(minus100Hu, "minus100Hu");
            Objects.requireNonNull(minus50Hu, "minus50Hu");
            Objects.requireNonNull(plus50Hu, "plus50Hu");
            Objects.requireNonNull(plus100Hu, "plus100Hu");
        }
    }

    /** Contact by fit: fraction, bounds, and the smallest gap that the fit tells from contact. Immutable. */
    public record ByFit(Stated fraction, Stated low, Stated high, Stated smallestVisibleGapMm) {

        public ByFit {
            Objects.requireNonNull(fraction, "fraction");
            Objects.requireNonNull(low, "low");
            Objects.requireNonNull(high, "high");
            Objects.requireNonNull(smallestVisibleGapMm, "smallestVisibleGapMm");
        }

        /** Not stated. */
        public static ByFit not(String why) {
            Stated none = Stated.not(why);
            return new ByFit(none, none, none, none);
        }
    }

    public CourseRow {
        Objects.requireNonNull(exam, "exam");
        Objects.requireNonNull(daysSinceSurgery, "daysSinceSurgery");
        Objects.requireNonNull(boneInterface, "boneInterface");
        Objects.requireNonNull(contactFraction, "contactFraction");
        Objects.requireNonNull(contactLow, "contactLow");
        Objects.requireNonNull(contactHigh, "contactHigh");
        Objects.requireNonNull(smallestVisibleGapMm, "smallestVisibleGapMm");
        Objects.requireNonNull(bridgedFraction, "bridgedFraction");
        Objects.requireNonNull(notAssessableFraction, "notAssessableFraction");
        Objects.requireNonNull(boneHu, "boneHu");
        Objects.requireNonNull(hostHu, "hostHu");
        Objects.requireNonNull(sensitivity, "sensitivity");
        Objects.requireNonNull(jitterSd, "jitterSd");
        Objects.requireNonNull(byFit, "byFit");
        Objects.requireNonNull(verdict, "verdict");
        Objects.requireNonNull(cause, "cause");
        Objects.requireNonNull(truthFraction, "truthFraction");
    }
}
