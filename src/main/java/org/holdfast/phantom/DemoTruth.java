package org.holdfast.phantom;

import java.util.List;
import java.util.Map;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/**
 * What is true of the demo subject at every exam, read from the scenes that were scanned. Fractions 0 to 1, lengths mm.
 *
 * @param exams in order of date
 */
public record DemoTruth(List<ExamTruth> exams) {

    public DemoTruth {
        exams = List.copyOf(exams);
    }

    /**
     * One exam.
     *
     * @param label column label
     * @param referenceToExam true pose of the construct: of the body, the cranial vertebra and their screws
     * @param interfaces one row a face
     * @param screws one row a screw
     * @param breaks all breaks
     * @param migration the body in the frame of each bone, since the reference exam
     */
    public record ExamTruth(
            String label,
            RigidTransform referenceToExam,
            List<InterfaceTruth> interfaces,
            List<ScrewTruth> screws,
            List<BreakTruth> breaks,
            List<MigrationTruth> migration) {

        public ExamTruth {
            interfaces = List.copyOf(interfaces);
            screws = List.copyOf(screws);
            breaks = List.copyOf(breaks);
            migration = List.copyOf(migration);
        }
    }

    /**
     * The gap between one face and its bone.
     *
     * @param id interface
     * @param gaps the face divided into areas with their gap widths, in the face's u and v
     * @param contactShare share of the face where bone touches
     * @param shareUnderMm share of the face with a gap under some widths, mm → share, ascending
     * @param meanGapMm mean over the face
     * @param widestGapMm largest
     */
    public record InterfaceTruth(
            String id,
            GapPattern gaps,
            double contactShare,
            Map<Double, Double> shareUnderMm,
            double meanGapMm,
            double widestGapMm) {}

    /**
     * The zone without bone around a screw, over the stretch of it that lies in bone.
     *
     * @param id component
     * @param meanZoneMm mean of stations and directions
     * @param widestZoneMm largest
     */
    public record ScrewTruth(String id, double meanZoneMm, double widestZoneMm) {}

    /**
     * A break.
     *
     * @param component broken part
     * @param atMm distance of the break's middle from the head point, or from a rod's first point along its line
     * @param point middle of the break in the reference exam's space
     * @param gapAlongAxisMm way without metal along the part's axis as implanted
     */
    public record BreakTruth(String component, double atMm, PatientPoint point, double gapAlongAxisMm) {}

    /**
     * The body in the frame of a bone, since the reference exam.
     *
     * @param component the body
     * @param bone the bone
     * @param translationMm left, posterior, cranial
     * @param rotationDeg rotation vector
     * @param intoBoneMm positive towards the bone
     */
    public record MigrationTruth(
            String component, String bone, List<Double> translationMm, List<Double> rotationDeg, double intoBoneMm) {}
}
