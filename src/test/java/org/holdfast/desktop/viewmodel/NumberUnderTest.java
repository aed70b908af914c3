package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.app.ReviewExam;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;
import org.junit.jupiter.api.Test;

class NumberUnderTest {

    private static final ReviewExam EXAM = SampleKnown.exam(1);

    private static NumberUnder face(Known known) {
        return NumberUnder.of(SampleKnown.part(SampleKnown.FACE), EXAM, known);
    }

    private static ThresholdContact contact() {
        return SampleSubject.report()
                .of(EXAM.label(), SampleKnown.FACE)
                .orElseThrow()
                .contact()
                .orElseThrow();
    }

    private static NumberUnder with(Stated fraction, Stated limitMm, boolean isLimitSettled) {
        return face(SampleKnown.changed(part -> SampleKnown.with(
                part,
                Verdict.answerable(),
                part.contact().map(c -> SampleKnown.with(c, fraction, limitMm, isLimitSettled)))));
    }

    @Test
    void hasItsBoundsAboutIt() {
        NumberUnder number = face(SampleKnown.measured());
        double low = number.bar().low().orElseThrow();
        double at = number.bar().at().orElseThrow();
        double high = number.bar().high().orElseThrow();
        assertTrue(0 <= low && low <= at && at <= high && high <= 1, number::toString);
        assertEquals(contact().low(), low);
        assertEquals(contact().high(), high);
        assertEquals(Words.percent(at), number.value());
        assertEquals(Words.percentRange(low, high), number.bounds());
    }

    @Test
    void saysWhatTheScanCouldNotHaveShown() {
        NumberUnder settled = with(Stated.of(0.6), Stated.of(0.74), true);
        // By hand: 0.74 with one decimal
        assertEquals("by threshold: bone, or a gap < 0.7\u2009mm", settled.limit());
        assertEquals("bone, or gap < 0.7\u2009mm", settled.compactLimit());
        assertEquals(
                "by threshold: bone, or a gap < 0.7\u2009mm (hinges on the blur)",
                with(Stated.of(0.6), Stated.of(0.74), false).limit());
    }

    @Test
    void isNotSilentWhereNoGapIsSeen() {
        assertEquals(
                "by threshold: bone, or a gap of any width",
                with(Stated.of(0.6), Stated.not("the model never sees a gap"), true)
                        .limit());
    }

    @Test
    void saysWhyThereIsNone() {
        NumberUnder none = with(Stated.not("under 50 % assessable"), Stated.of(0.7), true);
        assertEquals(
                new NumberUnder(
                        PartState.NOT_ASSESSABLE,
                        "not assessable",
                        "",
                        NumberUnder.Bar.NONE,
                        "under 50 % assessable",
                        "under 50 % assessable",
                        "",
                        ""),
                none);
        Verdict verdict = new Verdict(Verdict.Value.NOT_ANSWERABLE, List.of("cone-beam volume"));
        NumberUnder unmeasured = face(SampleKnown.changed(part -> SampleKnown.with(part, verdict, Optional.empty())));
        assertEquals("cone-beam volume", unmeasured.limit());
        assertEquals("", unmeasured.bounds());
    }

    @Test
    void keepsAnOldNumberMarked() {
        NumberUnder old = face(SampleKnown.stale(SampleKnown.measured(), 1, "other settings"));
        assertEquals(PartState.STALE, old.state());
        assertEquals(contact().fraction().value(), old.bar().at());
    }

    @Test
    void isNoneOfAPartThatIsNoFace() {
        NumberUnder rod = NumberUnder.of(SampleKnown.part("rod-left"), EXAM, SampleKnown.measured());
        assertEquals("not measured", rod.value());
        assertEquals("these results hold faces only: measure again", rod.limit());
    }
}
