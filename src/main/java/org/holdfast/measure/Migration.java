package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientVector;

/**
 * Where a component has gone in the frame of one of its bones since the reference exam. Immutable.
 *
 * @param bone id of the bone
 * @param motion the motion, or why it is not stated
 */
public record Migration(String bone, Answer<Motion> motion) {

    public Migration {
        Objects.requireNonNull(bone, "bone");
        Objects.requireNonNull(motion, "motion");
    }

    /**
     * A motion along the construct's axes.
     *
     * @param translationMm (left, posterior, cranial) of the component's middle, mm
     * @param rotationDeg rotation vector about the same axes, right-handed, degrees; of a screw without its spin about its own
     *     axis, which a round shank does not show
     * @param intoBoneMm towards that bone, along the normals of the interface, mean over its area; subsidence; not
     *     stated for a part without interface
     * @param screwAngleChangeDeg change of a screw's angle against its bone, projected on the sagittal plane,
     *     right-handed about the left axis (positive where the tip comes down); not stated for other parts
     * @param repeatabilityMm 1.96 SD of the translation in double examinations, per axis at most
     * @param repeatabilityDeg the same of the rotation
     * @param repeatabilitySource where these come from, in words
     * @param isWithinError whether neither exceeds its repeatability: then it is no change
     */
    public record Motion(
            PatientVector translationMm,
            PatientVector rotationDeg,
            Stated intoBoneMm,
            Stated screwAngleChangeDeg,
            double repeatabilityMm,
            double repeatabilityDeg,
            String repeatabilitySource,
            boolean isWithinError) {

        /**
         * Tilt in the sagittal plane, degrees: the rotation about the left axis, right-handed; positive where the front
         * of the component comes down.
         */
        public double sagittalTiltDeg() {
            return rotationDeg.x();
        }

        /**
         * Published classes of this motion, each with its source and "adapted", as none of the tables was made for such
         * implants: subsidence of what went into its bone, and a screw's angle. None for a motion within error.
         */
        public List<PublishedGrading.Grade> grades() {
            List<PublishedGrading.Grade> grades = new ArrayList<>();
            if (!isWithinError) {
                intoBoneMm.value().ifPresent(mm -> {
                    add(grades, PublishedGrading.OVER_TWO_MM, mm);
                    add(grades, PublishedGrading.OBLIQUE_LUMBAR_CAGE, mm);
                });
                screwAngleChangeDeg.value().ifPresent(deg -> add(grades, PublishedGrading.SCREW_ANGLE, Math.abs(deg)));
            }
            return grades;
        }

        private static void add(List<PublishedGrading.Grade> grades, PublishedGrading grading, double value) {
            grading.grade(value, PublishedGrading.Use.ADAPTED).value().ifPresent(grades::add);
        }
    }
}
