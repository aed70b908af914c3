package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.FilmResult;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.ThresholdContact;

/**
 * One cell of the matrix: the state of a part in an exam as mark and words. Immutable.
 *
 * @param state which mark
 * @param words words beside the mark
 * @param share contact fraction, 0 to 1, where the part has one
 * @param cause why it is so, in full, where there is more to say than the words
 */
public record PartCell(PartState state, String words, OptionalDouble share, String cause) {

    /** The cell of every part in an exam of radiographs. */
    public static PartCell onFilm() {
        return without(
                PartState.NOT_MEASURED,
                "read by eye",
                FilmResult.VERDICT.causes().get(0));
    }

    /** The cell of a part in an exam. */
    public static PartCell of(ConstructPart part, ReviewExam exam, Known known) {
        if (part.kind() != PartKind.INTERFACE) {
            return without(PartState.NOT_MEASURED, "not measured", "this version measures faces only");
        }
        Optional<InterfaceExam> measured = known.of(exam.label(), part.id());
        if (measured.isEmpty()) {
            return known.isMeasuring()
                    ? without(PartState.NOT_MEASURED, "measuring", "")
                    : without(PartState.NOT_MEASURED, "not measured", reasonOf(known));
        }
        String causes = String.join("; ", measured.get().verdict().causes());
        OptionalDouble fraction = measured.get()
                .contact()
                .map(ThresholdContact::fraction)
                .map(stated -> stated.value())
                .orElse(OptionalDouble.empty());
        Optional<String> stale = known.staleness(exam.label(), part.id());
        if (stale.isPresent()) {
            String words = fraction.isPresent() ? Words.percent(fraction.getAsDouble()) : "not assessable";
            return new PartCell(PartState.STALE, words, fraction, stale.get());
        }
        return fraction.isPresent()
                ? new PartCell(PartState.NO_FINDING, Words.percent(fraction.getAsDouble()), fraction, causes)
                : without(
                        PartState.NOT_ASSESSABLE,
                        "not assessable",
                        causes.isEmpty() ? unstated(measured.get()) : causes);
    }

    private static String unstated(InterfaceExam part) {
        return part.contact().map(contact -> contact.fraction().why()).orElse("");
    }

    /** Part, exam and state as read aloud. */
    public String aloud(ConstructPart part, ReviewExam exam) {
        String said = state == PartState.NO_FINDING ? words + " contact" : words;
        String old = state == PartState.STALE ? ", " + state.words() : "";
        return part.label() + ", " + exam.label() + ", " + said + old + (cause.isEmpty() ? "" : ", " + cause);
    }

    private static PartCell without(PartState state, String words, String cause) {
        return new PartCell(state, words, OptionalDouble.empty(), cause);
    }

    private static String reasonOf(Known known) {
        if (known.status() instanceof CourseResults.Status.Failed failed) {
            return failed.reason();
        }
        return known.report().isPresent() ? "the exam could not be read when the course was measured" : "";
    }
}
