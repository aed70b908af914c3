package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSession;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.ComparisonRows.Row;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

/** Rows for the exams of the sample, which were all made alike. */
final class ComparisonRowsTest {

    private static IntakePatient patient(int... exams) {
        List<Path> paths = Arrays.stream(exams)
                .mapToObj(n -> SampleSubject.exams().get(n).folder())
                .toList();
        try (IntakeSession session = IntakeSession.read(paths, Progress.NONE)) {
            return session.content().patients().get(0);
        }
    }

    @Test
    void oneMeasuredExamHasNothingToBeComparedWith() {
        assertEquals(List.of(), ComparisonRows.of(patient(0), IntakeSamples.plan()));
    }

    @Test
    void anExamThatIsOnlyViewedIsNotCompared() {
        IntakePatient two = patient(0, 2);
        IntakeExam later = two.exams().get(1);
        TakeInPlan plan = IntakeSamples.plan().withRole(later, later.series().get(0), SeriesRole.VIEW);
        assertEquals(List.of(), ComparisonRows.of(two, plan));
    }

    @Test
    void whatIsEqualIsSaidOnce() {
        List<Row> rows = ComparisonRows.of(patient(0, 2), IntakeSamples.plan());
        Row voltage = rows.get(0);
        assertEquals("Tube voltage", voltage.name());
        assertEquals(ComparisonRows.State.ALIKE, voltage.state());
        assertEquals("", voltage.why());
        assertTrue(voltage.value().endsWith(" in all"), voltage::value);
        assertEquals(
                Optional.empty(),
                rows.stream().filter(row -> row.name().isBlank()).findAny());
    }
}
