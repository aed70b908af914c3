package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote.Mark;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.junit.jupiter.api.Test;

final class SeriesFateTest {

    private static SeriesFate fate(IntakeSeries series, TakeInPlan plan) {
        IntakeExam exam = IntakeSamples.exam("exam-1", Optional.of(IntakeSamples.SURGERY), series);
        return SeriesFate.of(series, exam, plan);
    }

    private static IntakeSeries series(Kind kind, SeriesRole role, Mark... marks) {
        return IntakeSamples.series("a", kind, role, Optional.empty(), marks);
    }

    @Test
    void aMeasuredSeriesSaysWhetherThereIsAWarning() {
        assertEquals(
                new SeriesFate("Measured here", true),
                fate(series(Kind.VOLUME, SeriesRole.MEASURE, Mark.GOOD), IntakeSamples.plan()));
        assertEquals(
                new SeriesFate("Measured here, with a warning", true),
                fate(series(Kind.VOLUME, SeriesRole.MEASURE, Mark.CAUTION), IntakeSamples.plan()));
    }

    @Test
    void onlyFilmsGiveNumbersByConfirming() {
        assertEquals(
                new SeriesFate("Angles, ratios, breaks", true),
                fate(series(Kind.FILM, SeriesRole.CONFIRM), IntakeSamples.plan()));
        assertEquals(
                new SeriesFate("Looked at; confirms nothing alone", false),
                fate(series(Kind.VOLUME, SeriesRole.CONFIRM), IntakeSamples.plan()));
    }

    @Test
    void picturesAreNeverStacks() {
        assertEquals(
                new SeriesFate("Kept as a picture, never a stack", false),
                fate(series(Kind.PICTURE, SeriesRole.VIEW), IntakeSamples.plan()));
        assertEquals(
                new SeriesFate("Kept for viewing", false),
                fate(series(Kind.SLICES, SeriesRole.VIEW), IntakeSamples.plan()));
    }

    @Test
    void whatTheSubjectHasIsNotTakenAgain() {
        assertEquals(
                new SeriesFate("In this subject already", false),
                fate(series(Kind.VOLUME, SeriesRole.MEASURE), IntakeSamples.into(true, "a")));
    }

    @Test
    void nothingIsUsedWithoutADayExceptWhatIsLeftOut() {
        IntakeSeries used = series(Kind.VOLUME, SeriesRole.MEASURE);
        IntakeExam undated = IntakeSamples.exam("exam-1", Optional.empty(), used);
        assertEquals(
                new SeriesFate("Not used yet: a question is open", false),
                SeriesFate.of(used, undated, IntakeSamples.plan()));
        assertEquals(
                new SeriesFate("Left out", false),
                SeriesFate.of(used, undated, IntakeSamples.plan().without(undated)));
        assertEquals(
                new SeriesFate("Measured here", true),
                SeriesFate.of(
                        used, undated, IntakeSamples.plan().withDate("exam-1", Optional.of(IntakeSamples.SURGERY))));
    }
}
