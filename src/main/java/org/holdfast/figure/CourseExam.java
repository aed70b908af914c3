package org.holdfast.figure;

import java.util.Objects;
import java.util.OptionalInt;

/**
 * One exam of a course. Immutable.
 *
 * @param label what the exam is called, such as "surgery" or "12 mo"
 * @param monthsSinceSurgery true time of the exam, months after surgery; negative before it
 * @param joinedTo index of the earlier exam that this one continues: the latest that it may be compared with; empty
 *     where there is none, and then a new line starts here
 * @param remark what sets this exam apart, in few words, such as "other kernel"; empty if nothing
 */
public record CourseExam(String label, double monthsSinceSurgery, OptionalInt joinedTo, String remark) {

    public CourseExam {
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(joinedTo, "joinedTo");
        Objects.requireNonNull(remark, "remark");
        if (!Double.isFinite(monthsSinceSurgery)) {
            throw new IllegalArgumentException("monthsSinceSurgery must be finite, got " + monthsSinceSurgery);
        }
        if (joinedTo.isPresent() && joinedTo.getAsInt() < 0) {
            throw new IllegalArgumentException("joinedTo must be an index from 0, got " + joinedTo.getAsInt());
        }
    }
}
