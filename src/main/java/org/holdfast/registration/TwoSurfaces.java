package org.holdfast.registration;

import java.util.Optional;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/** The metal of two exams, to be compared in both directions. Safe to share between threads. */
final class TwoSurfaces {

    /** Points among which partners are looked for; about one a mm². */
    private static final int DENSE_POINTS = 20_000;

    /** Under this overlap a pose is scored lower: a few points at the border of the image fit nearly everywhere. */
    private static final double FULL_OVERLAP = 0.6;

    /** How near metal must be to belong to the same construct, mm. */
    private static final double SURROUNDINGS_MM = 60;

    final SurfacePoints reference;
    final SurfacePoints exam;
    final SurfaceMatch toExam;
    private final SurfaceMatch toReference;

    TwoSurfaces(
            SurfacePoints reference,
            Predicate<PatientPoint> isInReferenceImage,
            SurfacePoints exam,
            Predicate<PatientPoint> isInExamImage) {
        this.reference = reference.thinned(DENSE_POINTS);
        this.exam = exam.thinned(DENSE_POINTS);
        this.toExam = new SurfaceMatch(this.exam, isInExamImage);
        this.toReference = new SurfaceMatch(this.reference, isInReferenceImage);
    }

    /**
     * How well the metal agrees in both directions: the mean of the shares that fit, less where little overlaps; 0 to 1.
     *
     * @param ours some of the reference's points
     * @param theirs some of the exam's points
     */
    double score(SurfacePoints ours, SurfacePoints theirs, RigidTransform pose, MatchSettings settings) {
        PoseQuality there = toExam.quality(ours, pose, settings);
        PoseQuality back = toReference.quality(theirs, pose.inverse(), settings);
        double overlap = Math.min(1, Math.min(there.overlap(), back.overlap()) / FULL_OVERLAP);
        return 0.5 * (there.inlierShare() + back.inlierShare()) * overlap;
    }

    /** Steps from a start. */
    Optional<RigidTransform> stepped(SurfacePoints ours, RigidTransform start, MatchSettings settings) {
        return toExam.iterate(ours, start, settings).map(SurfaceMatch.Iterated::pose);
    }

    /** Area of the reference's metal that has none of the exam's within a distance, mm². */
    double goneMm2(RigidTransform pose, double distanceMm) {
        return farMm2(reference, toExam.distancesMm(reference, pose, SURROUNDINGS_MM), distanceMm, Double.MAX_VALUE);
    }

    /** Area of the exam's metal, in the surroundings of the reference's, that has none of it within a distance, mm². */
    double newMm2(RigidTransform pose, double distanceMm) {
        double[] distances = toReference.distancesMm(exam, pose.inverse(), SURROUNDINGS_MM);
        return farMm2(exam, distances, distanceMm, SURROUNDINGS_MM);
    }

    private static double farMm2(SurfacePoints points, double[] distances, double over, double under) {
        double area = 0;
        for (int n = 0; n < distances.length; n++) {
            area += distances[n] > over && distances[n] < under ? points.areaMm2(n) : 0;
        }
        return area;
    }
}
