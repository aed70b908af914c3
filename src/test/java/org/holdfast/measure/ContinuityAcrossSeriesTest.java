package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.measure.Continuity.Status;
import org.holdfast.measure.ContinuityAcrossSeries.Combined;
import org.holdfast.measure.ContinuityAcrossSeries.RadiographReading;
import org.holdfast.measure.ContinuityAcrossSeries.SeriesReading;
import org.holdfast.volume.Acquisition.Known;
import org.junit.jupiter.api.Test;

class ContinuityAcrossSeriesTest {

    private static final ContinuityAcrossSeries RULE = new ContinuityAcrossSeries(ContinuitySettings.withDefaults());

    private static SeriesReading series(String uid, Known artefactReduction, double... breaksAtMm) {
        List<Continuity.Break> breaks = new ArrayList<>();
        for (double at : breaksAtMm) {
            breaks.add(new Continuity.Break(
                    at,
                    PatientPoint.ORIGIN,
                    Stated.of(1.0),
                    Stated.of(1.0),
                    Stated.of(0),
                    Stated.of(0),
                    false,
                    Status.UNCONFIRMED));
        }
        return new SeriesReading(
                uid,
                artefactReduction,
                new Continuity(breaks, Stated.of(0.3), Optional.empty(), false, Stated.of(7000), false, List.of()));
    }

    private static Combined combine(RadiographReading radiograph, SeriesReading... series) {
        return RULE.combine(List.of(series), radiograph);
    }

    @Test
    void aBreakOnAnArtefactReducedSeriesOnlyIsUnconfirmed() {
        // Source: the trade's rules, section 8 row 44: screw fracture called only on an artefact-reduced series,
        // "unconfirmed"
        assertEquals(
                Status.UNCONFIRMED,
                combine(RadiographReading.NOT_READ, series("1", Known.YES, 14))
                        .breaks()
                        .get(0)
                        .status());
        assertEquals(
                Status.UNCONFIRMED,
                combine(RadiographReading.NOT_READ, series("1", Known.UNKNOWN, 14))
                        .breaks()
                        .get(0)
                        .status());
    }

    @Test
    void aContradictingSeriesLeavesItUnconfirmedAndIsNamed() {
        Combined both = combine(RadiographReading.NO_BREAK_SEEN, series("1", Known.YES, 14), series("2", Known.NO));
        assertEquals(Status.UNCONFIRMED, both.breaks().get(0).status());
        assertEquals(List.of("2"), both.breaks().get(0).notSeenOn());
    }

    @Test
    void anotherSeriesOrARadiographConfirms() {
        Combined second =
                combine(RadiographReading.NOT_READ, series("1", Known.YES, 14), series("2", Known.UNKNOWN, 15.5));
        assertEquals(1, second.breaks().size());
        assertEquals(Status.CONFIRMED, second.breaks().get(0).status());
        assertEquals(List.of("2", "1"), second.breaks().get(0).seenOn());
        Combined film = combine(RadiographReading.BREAK_SEEN, series("1", Known.YES, 14));
        assertEquals(Status.CONFIRMED, film.breaks().get(0).status());
        assertEquals(Status.CONFIRMED, film.breaks().get(0).found().status());
    }

    @Test
    void twoArtefactReducedSeriesDoNotConfirmEachOther() {
        Combined both = combine(RadiographReading.NOT_READ, series("1", Known.YES, 14), series("2", Known.YES, 14));
        assertEquals(Status.UNCONFIRMED, both.breaks().get(0).status());
    }

    @Test
    void aRadiographWithoutABreakDoesNotTakeBackOne() {
        Combined seen = combine(RadiographReading.NO_BREAK_SEEN, series("1", Known.NO, 14));
        assertEquals(Status.CONFIRMED, seen.breaks().get(0).status());
    }

    @Test
    void noBreakSeenIsUnconfirmedOnAnArtefactReducedSeriesOnly() {
        assertEquals(
                Optional.of(Status.UNCONFIRMED),
                combine(RadiographReading.NOT_READ, series("1", Known.YES)).noBreakSeen());
        assertEquals(
                Optional.of(Status.CONFIRMED),
                combine(RadiographReading.NOT_READ, series("1", Known.YES), series("2", Known.NO))
                        .noBreakSeen());
    }

    @Test
    void breaksFurtherApartAreTwo() {
        Combined two = combine(RadiographReading.NOT_READ, series("1", Known.NO, 14), series("2", Known.NO, 17.5));
        assertEquals(2, two.breaks().size());
        assertTrue(two.noBreakSeen().isEmpty());
    }

    @Test
    void refusesNothing() {
        assertThrows(IllegalArgumentException.class, () -> RULE.combine(List.of(), RadiographReading.NOT_READ));
    }
}
