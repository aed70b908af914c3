package org.holdfast.figure;

import java.util.List;
import java.util.Objects;

/**
 * One interface over all exams of a course. Immutable.
 *
 * @param label what the interface is called
 * @param points one point an exam, in the order of the course's exams
 */
public record CourseLine(String label, List<CoursePoint> points) {

    public CourseLine {
        Objects.requireNonNull(label, "label");
        points = List.copyOf(points);
    }
}
