package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ExamResult;
import org.holdfast.app.FilmResult;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.InterfaceExam;

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
        PartCell fresh = part.kind() == PartKind.INTERFACE ? ofFace(part, exam, known) : ofComponent(part, exam, known);
        Optional<String> stale = known.staleness(exam.label(), part.id());
        return stale.isPresent() && fresh.state() != PartState.NOT_MEASURED
                ? new PartCell(PartState.STALE, fresh.words(), fresh.share(), stale.get())
                : fresh;
    }

    private static PartCell ofFace(ConstructPart part, ReviewExam exam, Known known) {
        Optional<InterfaceExam> measured = known.of(exam.label(), part.id());
        if (measured.isEmpty()) {
            return notMeasured(known);
        }
        String causes = String.join("; ", measured.get().verdict().causes());
        Optional<ContactHeadline> headline = ContactHeadline.of(measured.get());
        OptionalDouble fraction = headline.map(h -> h.fraction().value()).orElse(OptionalDouble.empty());
        if (fraction.isEmpty()) {
            String unstated = headline.map(h -> h.fraction().why()).orElse("");
            return without(PartState.NOT_ASSESSABLE, "not assessable", causes.isEmpty() ? unstated : causes);
        }
        Optional<String> loss = ContactLoss.since(exam.label(), part.id(), known);
        String cause =
                loss.map(fell -> causes.isEmpty() ? fell : fell + "; " + causes).orElse(causes);
        PartState state = loss.isPresent() ? PartState.CHANGED : PartState.NO_FINDING;
        return new PartCell(state, Words.percent(fraction.getAsDouble()), fraction, cause);
    }

    private static PartCell ofComponent(ConstructPart part, ReviewExam exam, Known known) {
        Optional<ComponentExam> measured = known.component(exam.label(), part.id());
        if (measured.isEmpty()) {
            return known.exam(exam.label()).isPresent() && !known.isMeasuring()
                    ? without(PartState.NOT_MEASURED, "not measured", "these results hold faces only: measure again")
                    : notMeasured(known);
        }
        boolean isReference =
                known.exam(exam.label()).map(ExamResult::isReference).orElse(false);
        List<ComponentFinding> found = ComponentFinding.of(measured.get(), isReference);
        ComponentFinding gravest = found.get(0);
        // On the reference exam nothing can have moved: that is said in a word.
        String causes = isReference && part.kind() != PartKind.SCREW && part.kind() != PartKind.ROD
                ? ""
                : ComponentCauses.of(
                        measured.get(), found, known.report().orElseThrow().construct());
        return without(gravest.state(), gravest.words(), causes);
    }

    private static PartCell notMeasured(Known known) {
        return known.isMeasuring()
                ? without(PartState.NOT_MEASURED, "measuring", "")
                : without(PartState.NOT_MEASURED, "not measured", reasonOf(known));
    }

    /** Part, exam and state as read aloud. */
    public String aloud(ConstructPart part, ReviewExam exam) {
        String said = share.isPresent() ? words + " contact" : words;
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
