package org.holdfast.figure;

import java.util.List;
import java.util.Objects;

/**
 * The contact of some interfaces over the exams of one subject, as a chart is to show it. Immutable.
 *
 * @param title what is shown, in one line
 * @param subtitle how it was measured, in one line; may be empty
 * @param exams the exams in order of time
 * @param lines the interfaces, from top to bottom
 * @param caution standing text at the foot
 */
public record Course(String title, String subtitle, List<CourseExam> exams, List<CourseLine> lines, String caution) {

    public Course {
        Objects.requireNonNull(title, "title");
        Objects.requireNonNull(subtitle, "subtitle");
        Objects.requireNonNull(caution, "caution");
        exams = List.copyOf(exams);
        lines = List.copyOf(lines);
        requireOrder(exams);
        for (CourseLine line : lines) {
            if (line.points().size() != exams.size()) {
                throw new IllegalArgumentException("line '" + line.label() + "' has "
                        + line.points().size() + " points for " + exams.size() + " exams");
            }
        }
    }

    private static void requireOrder(List<CourseExam> exams) {
        if (exams.isEmpty()) {
            throw new IllegalArgumentException("a course needs at least one exam");
        }
        for (int i = 0; i < exams.size(); i++) {
            CourseExam exam = exams.get(i);
            if (i > 0 && exam.monthsSinceSurgery() < exams.get(i - 1).monthsSinceSurgery()) {
                throw new IllegalArgumentException(
                        "exams must be in order of time; '" + exam.label() + "' comes too late in the list");
            }
            if (exam.joinedTo().isPresent() && exam.joinedTo().getAsInt() >= i) {
                throw new IllegalArgumentException(
                        "exam '" + exam.label() + "' can continue only an earlier exam, got index "
                                + exam.joinedTo().getAsInt());
            }
        }
    }
}
