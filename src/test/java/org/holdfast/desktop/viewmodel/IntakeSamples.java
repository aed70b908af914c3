package org.holdfast.desktop.viewmodel;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.app.TakeInTarget;
import org.holdfast.volume.ScanFacts;

/** Found series, exams and plans in memory. */
final class IntakeSamples {

    static final LocalDate SURGERY = LocalDate.of(2030, 1, 10);

    private IntakeSamples() {}

    static IntakeSeries series(
            String id, Kind kind, SeriesRole role, Optional<ScanFacts> scan, IntakeNote.Mark... marks) {
        return new IntakeSeries(
                id,
                "2.25.7" + id.hashCode(),
                kind,
                "CT",
                "Series " + id,
                "",
                "0.6 mm, 3",
                3,
                role,
                List.of(SeriesRole.values()),
                "",
                Arrays.stream(marks).map(mark -> new IntakeNote(mark, "a note")).toList(),
                scan,
                false);
    }

    /** The same series with pictures that may show text. */
    static IntakeSeries withText(IntakeSeries s) {
        return new IntakeSeries(
                s.id(),
                s.seriesUid(),
                s.kind(),
                s.modality(),
                s.name(),
                s.described(),
                s.extent(),
                s.files(),
                s.proposed(),
                s.possible(),
                s.why(),
                s.notes(),
                s.scan(),
                true);
    }

    static IntakeExam exam(String id, Optional<LocalDate> day, IntakeSeries... series) {
        return new IntakeExam(id, day, day.isPresent() ? "AcquisitionDate" : "", List.of(series), List.of());
    }

    static IntakePatient patient(IntakeExam... exams) {
        return new IntakePatient("patient A", List.of(exams), List.of());
    }

    static TakeInPlan plan() {
        return TakeInPlan.undecided(TakeInTarget.fresh(Path.of("S-1")))
                .withCode("S-1")
                .withOperation(Optional.of(SURGERY));
    }

    static TakeInPlan into(boolean hasShiftedDates, String... seriesThere) {
        TakeInTarget.Subject subject =
                new TakeInTarget.Subject("S-9", SURGERY, Set.of(), Set.of(seriesThere), hasShiftedDates);
        return TakeInPlan.undecided(
                new TakeInTarget(Path.of("S-9"), Optional.of(subject), Optional.empty(), Optional.empty()));
    }
}
