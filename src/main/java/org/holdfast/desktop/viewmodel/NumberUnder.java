package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.InterfaceExam;

/**
 * What stands under an exam's pictures: the number with its bounds and what the scan could not have shown, or why there
 * is none. Never a number alone. Immutable.
 *
 * @param state the part's state in this exam
 * @param value the number with its unit, or the words that stand for it
 * @param bounds lower and upper bound; empty without them
 * @param bar the same drawn on a scale
 * @param limit what the scan cannot tell apart, or why there is no number
 * @param compactLimit the same in few words
 * @param second what stands beside the headline, with its own bounds and limit; may be empty
 * @param compactSecond the same in few words
 */
public record NumberUnder(
        PartState state,
        String value,
        String bounds,
        Bar bar,
        String limit,
        String compactLimit,
        String second,
        String compactSecond) {

    /**
     * A number and its bounds as shares of a scale, 0 to 1.
     *
     * @param low lower bound; empty for none
     * @param at the number; empty for none
     * @param high upper bound; empty for none
     */
    public record Bar(OptionalDouble low, OptionalDouble at, OptionalDouble high) {

        /** Nothing to draw. */
        public static final Bar NONE = new Bar(OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());

        /** A number with its bounds, each kept within the scale. */
        static Bar of(double low, double at, double high) {
            return new Bar(clamped(low), clamped(at), clamped(high));
        }

        /** What cannot be seen, from the scale's start on, without a number. */
        static Bar unseen(double limit) {
            return new Bar(OptionalDouble.of(0), OptionalDouble.empty(), clamped(limit));
        }

        private static OptionalDouble clamped(double share) {
            return OptionalDouble.of(Math.max(0, Math.min(1, share)));
        }
    }

    /** Whether there is a number to be shown as one. */
    public boolean isNumber() {
        return bar.at().isPresent();
    }

    /** The number of a part in an exam. */
    public static NumberUnder of(ConstructPart part, ReviewExam exam, Known known) {
        PartCell cell = PartCell.of(part, exam, known);
        if (part.kind() == PartKind.INTERFACE) {
            Optional<InterfaceExam> measured = known.of(exam.label(), part.id());
            return measured.map(face -> FaceNumber.of(face, cell)).orElseGet(() -> without(cell, cell.cause()));
        }
        Optional<ComponentExam> measured = known.component(exam.label(), part.id());
        return measured.map(component -> ComponentNumber.of(
                        component, cell, known.report().orElseThrow().construct()))
                .orElseGet(() -> without(cell, cell.cause()));
    }

    /** What stands under a radiograph. */
    public static NumberUnder onFilm() {
        return new NumberUnder(
                PartState.NOT_MEASURED,
                "read by eye",
                "",
                Bar.NONE,
                "a radiograph has no HU",
                "a radiograph, no HU",
                "",
                "");
    }

    /** No number, and why. */
    static NumberUnder without(PartCell cell, String why) {
        return new NumberUnder(cell.state(), cell.words(), "", Bar.NONE, why, why, "", "");
    }

    /** The whole in words, for those who cannot see it. */
    public String aloud() {
        StringBuilder said = new StringBuilder(value);
        for (String more : new String[] {bounds.isEmpty() ? "" : "bounds " + bounds, limit, second}) {
            if (!more.isEmpty()) {
                said.append(", ").append(more);
            }
        }
        return said.toString().replace('\n', ' ');
    }
}
