package org.holdfast.registration;

import java.util.OptionalDouble;

/**
 * How well two exams agree at a pose.
 *
 * @param residualMm root mean square distance of the inliers along their normals, mm; empty where intensities were matched
 * @param correlation correlation of the two exams' HU over the points inside, −1 to 1; empty where surfaces were matched
 * @param overlap share of the reference's points that lie inside the exam's image, 0 to 1
 * @param inlierShare share of the points inside that fit, 0 to 1
 */
public record PoseQuality(OptionalDouble residualMm, OptionalDouble correlation, double overlap, double inlierShare) {

    public PoseQuality {
        requireShare("overlap", overlap);
        requireShare("inlierShare", inlierShare);
    }

    static PoseQuality ofSurface(double residualMm, double overlap, double inlierShare) {
        return new PoseQuality(OptionalDouble.of(residualMm), OptionalDouble.empty(), overlap, inlierShare);
    }

    static PoseQuality ofIntensity(double correlation, double overlap, double inlierShare) {
        return new PoseQuality(OptionalDouble.empty(), OptionalDouble.of(correlation), overlap, inlierShare);
    }

    private static void requireShare(String name, double share) {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException(name + " must lie in [0, 1], got " + share);
        }
    }
}
