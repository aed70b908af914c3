package org.holdfast.figure;

import java.util.List;
import java.util.OptionalInt;
import org.holdfast.app.Caution;

/** An invented course: the cranial interface grows, the caudal one stays open, one exam is not comparable. */
final class SampleCourse {

    private SampleCourse() {}

    static Course course() {
        List<CourseExam> exams = List.of(
                new CourseExam("surgery", 0.1, OptionalInt.empty(), ""),
                new CourseExam("3 mo", 3.1, OptionalInt.empty(), "other kernel"),
                new CourseExam("6 mo", 6.1, OptionalInt.of(0), ""),
                new CourseExam("12 mo", 12.2, OptionalInt.of(2), ""),
                new CourseExam("24 mo", 24.3, OptionalInt.of(3), ""));
        CourseLine cranial = new CourseLine(
                "Cranial interface, T12 & body <L1>",
                List.of(
                        CoursePoint.stated(0.118, 0.11, 0.16)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0.10),
                        CoursePoint.stated(0.306, 0.24, 0.45)
                                .withSmallestVisibleGapMm(1.62)
                                .withTruth(0.28),
                        CoursePoint.stated(0.482, 0.45, 0.52)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0.47),
                        CoursePoint.stated(0.634, 0.60, 0.66)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0.62),
                        CoursePoint.stated(0.765, 0.65, 0.80)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0.67)));
        CourseLine caudal = new CourseLine(
                "Caudal interface",
                List.of(
                        CoursePoint.stated(0, 0, 0.05)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0),
                        CoursePoint.notStated("bone below threshold beyond guard")
                                .withTruth(0),
                        CoursePoint.stated(0.02, 0.02, 0.06)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0),
                        CoursePoint.stated(0.03, 0.02, 0.08)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0),
                        CoursePoint.stated(0.05, 0.04, 0.12)
                                .withSmallestVisibleGapMm(1.35)
                                .withTruth(0)));
        return new Course(
                "Apparent contact of the porous body since surgery",
                "by threshold, bone from 163 HU (host 120 HU), settings A",
                exams,
                List.of(cranial, caudal),
                Caution.TEXT);
    }
}
