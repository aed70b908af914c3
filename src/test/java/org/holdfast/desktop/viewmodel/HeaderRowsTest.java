package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.app.HeaderChanges;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote.Mark;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.junit.jupiter.api.Test;

final class HeaderRowsTest {

    private static final IntakeExam EXAM = IntakeSamples.exam(
            "exam-1",
            Optional.of(IntakeSamples.SURGERY),
            IntakeSamples.withText(
                    IntakeSamples.series("a", Kind.PICTURE, SeriesRole.VIEW, Optional.empty(), Mark.FAULT)),
            IntakeSamples.series("b", Kind.SLICES, SeriesRole.VIEW, Optional.empty(), Mark.FAULT));
    private static final IntakePatient PATIENT = IntakeSamples.patient(EXAM);

    private static HeaderRows.Row row(String name, HeaderChanges changes, TakeInPlan plan) {
        return HeaderRows.of(changes, PATIENT, plan).stream()
                .filter(row -> row.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static HeaderChanges changes(int removed, int privates, String... kept) {
        return new HeaderChanges(2, 3, removed, privates, 5, List.of(kept));
    }

    @Test
    void countsInWords() {
        TakeInPlan plan = IntakeSamples.plan();
        assertEquals(
                "removed, 1 field",
                row("Places, persons, devices, words", changes(1, 0), plan).value());
        assertEquals(
                "replaced, 5 fields", row("Identifiers", changes(1, 0), plan).value());
        assertEquals("none there", row("Private fields", changes(1, 0), plan).value());
        assertEquals("removed, 7", row("Private fields", changes(1, 7), plan).value());
    }

    @Test
    void namesTheCodeOnceItIsThere() {
        assertEquals(
                "replaced by the subject's code",
                row("Name and number", changes(1, 0), IntakeSamples.plan().withCode(""))
                        .value());
        assertEquals(
                "replaced by S-1",
                row("Name and number", changes(1, 0), IntakeSamples.plan()).value());
    }

    @Test
    void datesFollowTheSubjectThatIsThere() {
        String shifted = "shifted by one secret number of weeks";
        assertEquals(shifted, row("Dates", changes(1, 0), IntakeSamples.plan()).value());
        assertEquals(
                shifted, row("Dates", changes(1, 0), IntakeSamples.into(true)).value());
        assertEquals(
                "taken out, kept beside the files",
                row("Dates", changes(1, 0), IntakeSamples.into(false)).value());
    }

    @Test
    void wordsThatAreKeptAreTold() {
        assertEquals(
                "ConvolutionKernel, SeriesDescription",
                row(
                                "Words kept for measuring",
                                changes(1, 0, "ConvolutionKernel", "SeriesDescription"),
                                IntakeSamples.plan())
                        .more());
        assertTrue(HeaderRows.of(changes(1, 0), PATIENT, IntakeSamples.plan()).stream()
                .noneMatch(row -> row.name().equals("Words kept for measuring")));
    }

    @Test
    void textInPicturesWarnsUntilTheSeriesIsLeftOut() {
        HeaderRows.Row warned = row("Text in pictures", changes(1, 0), IntakeSamples.plan());
        assertTrue(warned.isWarning());
        assertEquals("1 series: Series a", warned.value());
        assertFalse(row("Text in pictures", changes(1, 0), IntakeSamples.plan().without(EXAM))
                .isWarning());
    }
}
