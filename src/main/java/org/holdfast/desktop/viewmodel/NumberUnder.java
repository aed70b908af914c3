package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.ThresholdContact;

/**
 * What stands under an exam's pictures: the number with its bounds and what the scan could not have shown, or why there
 * is none. Never a number alone. Immutable.
 *
 * @param state the part's state in this exam
 * @param value the number with its unit, or the word that stands for it
 * @param bounds lower and upper bound, percent; empty without a number
 * @param low lower bound, 0 to 1
 * @param at the number, 0 to 1
 * @param high upper bound, 0 to 1
 * @param limit what the scan cannot tell apart, or why there is no number
 * @param compactLimit the same in few words
 */
public record NumberUnder(
        PartState state,
        String value,
        String bounds,
        OptionalDouble low,
        OptionalDouble at,
        OptionalDouble high,
        String limit,
        String compactLimit) {

    /** The number of a part in an exam. */
    public static NumberUnder of(ConstructPart part, ReviewExam exam, Known known) {
        PartCell cell = PartCell.of(part, exam, known);
        Optional<InterfaceExam> measured =
                part.kind() == PartKind.INTERFACE ? known.of(exam.label(), part.id()) : Optional.empty();
        if (measured.isEmpty() || measured.get().contact().isEmpty()) {
            return without(cell);
        }
        ThresholdContact contact = measured.get().contact().get();
        if (contact.fraction().value().isEmpty()) {
            return without(cell, contact.fraction().why());
        }
        OptionalDouble gap = contact.smallestVisibleGapMm().value();
        String unseen = gap.isPresent() ? "gaps < " + Words.quantity(gap.getAsDouble(), 1, "mm") : "gaps of any width";
        String doubt = contact.isLimitSettled() ? "" : " (hinges on the blur)";
        return new NumberUnder(
                cell.state(),
                cell.words(),
                Words.percentRange(contact.low(), contact.high()),
                OptionalDouble.of(contact.low()),
                contact.fraction().value(),
                OptionalDouble.of(contact.high()),
                unseen + " read as contact" + doubt,
                unseen + " unseen");
    }

    /** What stands under a radiograph. */
    public static NumberUnder onFilm() {
        OptionalDouble none = OptionalDouble.empty();
        return new NumberUnder(
                PartState.NOT_MEASURED,
                "read by eye",
                "",
                none,
                none,
                none,
                "a radiograph has no HU",
                "a radiograph, no HU");
    }

    private static NumberUnder without(PartCell cell) {
        return without(cell, cell.cause());
    }

    private static NumberUnder without(PartCell cell, String why) {
        OptionalDouble none = OptionalDouble.empty();
        return new NumberUnder(cell.state(), cell.words(), "", none, none, none, why, why);
    }
}
