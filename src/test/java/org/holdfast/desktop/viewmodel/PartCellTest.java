package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ReviewExam;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.holdfast.measure.Stated;
import org.holdfast.measure.Verdict;
import org.junit.jupiter.api.Test;

class PartCellTest {

    private static final ReviewExam EXAM = SampleKnown.exam(1);

    private static PartCell face(Known known) {
        return PartCell.of(SampleKnown.part(SampleKnown.FACE), EXAM, known);
    }

    private static double fraction() {
        return SampleSubject.report()
                .of(EXAM.label(), SampleKnown.FACE)
                .orElseThrow()
                .contact()
                .orElseThrow()
                .fraction()
                .value()
                .getAsDouble();
    }

    @Test
    void showsTheFractionThatWasMeasured() {
        PartCell cell = face(SampleKnown.measured());
        assertEquals(PartState.NO_FINDING, cell.state());
        assertEquals(OptionalDouble.of(fraction()), cell.share());
        assertEquals(Words.percent(fraction()), cell.words());
        assertEquals(
                "Cranial endplate, T12, 3 mo, " + Words.percent(fraction()) + " contact",
                new PartCell(cell.state(), cell.words(), cell.share(), "")
                        .aloud(SampleKnown.part(SampleKnown.FACE), EXAM));
    }

    @Test
    void marksAnOldNumberAndSaysWhy() {
        PartCell cell = face(SampleKnown.stale(SampleKnown.measured(), 1, "measured with other settings"));
        assertEquals(PartState.STALE, cell.state());
        assertEquals(OptionalDouble.of(fraction()), cell.share());
        assertEquals("measured with other settings", cell.cause());
        String aloud = cell.aloud(SampleKnown.part(SampleKnown.FACE), EXAM);
        assertTrue(aloud.endsWith(", old settings, measured with other settings"), aloud);
    }

    @Test
    void saysWhyThereIsNoFraction() {
        Verdict verdict = new Verdict(Verdict.Value.NOT_ANSWERABLE, List.of("cone-beam volume", "no metal found"));
        PartCell cell = face(SampleKnown.changed(part -> SampleKnown.with(part, verdict, Optional.empty())));
        assertEquals(
                new PartCell(
                        PartState.NOT_ASSESSABLE,
                        "not assessable",
                        OptionalDouble.empty(),
                        "cone-beam volume; no metal found"),
                cell);
    }

    @Test
    void saysWhyAMeasurementStatesNoFraction() {
        PartCell cell = face(SampleKnown.changed(part -> SampleKnown.with(
                part,
                Verdict.answerable(),
                part.contact()
                        .map(c -> SampleKnown.with(
                                c, Stated.not("under 50 % assessable"), c.smallestVisibleGapMm(), true)))));
        assertEquals(PartState.NOT_ASSESSABLE, cell.state());
        assertEquals("under 50 % assessable", cell.cause());
    }

    @Test
    void saysThatOnlyFacesAreMeasured() {
        PartCell cell = PartCell.of(SampleKnown.part("screw-l2-left"), EXAM, SampleKnown.measured());
        assertEquals(PartState.NOT_MEASURED, cell.state());
        assertEquals("these results hold faces only: measure again", cell.cause());
    }

    @Test
    void saysHowItStandsWhileThereAreNoNumbers() {
        assertEquals(
                "measuring", face(SampleKnown.nothing(new Status.Reading())).words());
        assertEquals(
                "measuring",
                face(SampleKnown.nothing(new Status.Measuring(0.5, "exam 2"))).words());
        assertEquals("", face(SampleKnown.nothing(new Status.Stopped())).cause());
        PartCell failed = face(SampleKnown.nothing(new Status.Failed("ct: no such folder")));
        assertEquals("not measured", failed.words());
        assertEquals("ct: no such folder", failed.cause());
    }
}
