package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Dates that are moved by days, and values that name no day. */
final class ShiftedDatesTest {

    @ParameterizedTest
    @CsvSource({
        // By hand: 2004 is a leap year; 1 March less 1 day is 29 February.
        "20040301, -1, 20040229",
        "19930430, -7, 19930423",
        // By hand: the form of ACR-NEMA, with points (PS3.5, section 6.2, note on DA).
        "1993.04.30, -7, 19930423",
        // Computed: Python 3.11, date(2004, 3, 1) + timedelta(-1022)
        "20040301, -1022, 20010514"
    })
    void datesMoveByDays(String value, int days, String moved) {
        assertEquals(Optional.of(moved), ShiftedDates.date(value, days));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "2004",
                "200403",
                "20040230",
                "2004-03-01",
                "20040301-20040302",
                "1993.0430",
                "yesterday",
                "00000000"
            })
    void whatNamesNoDayIsNotMoved(String value) {
        assertTrue(ShiftedDates.date(value, -7).isEmpty());
    }

    @ParameterizedTest
    @CsvSource({
        "20040301, 20040223",
        "20040301072730, 20040223072730",
        "20040301072730.123456, 20040223072730.123456",
        "2004030107, 2004022307",
        "20040301072730+0100, 20040223072730",
        "20040301072730.5-1130, 20040223072730.5"
    })
    void dateTimesKeepTheirTimeAndLoseTheirOffset(String value, String moved) {
        assertEquals(Optional.of(moved), ShiftedDates.dateTime(value, -7));
    }

    @ParameterizedTest
    @ValueSource(strings = {"2004", "200403", "20040301T0727", "2004030", "20040301072730 SECRET"})
    void dateTimesWithoutADayAreNotMoved(String value) {
        assertTrue(ShiftedDates.dateTime(value, -7).isEmpty());
    }

    @Test
    void timesAreTold() {
        assertTrue(ShiftedDates.isTime("072730.123"));
        assertTrue(ShiftedDates.isTime("07:27:30"));
        assertTrue(ShiftedDates.isTime("07"));
        assertFalse(ShiftedDates.isTime("SECRET-7731"));
        assertFalse(ShiftedDates.isTime("7"));
    }

    @Property
    void intervalsStay(
            @ForAll @IntRange(min = 0, max = 40_000) int first,
            @ForAll @IntRange(min = 0, max = 40_000) int second,
            @ForAll @IntRange(min = -3700, max = -1) int days) {
        LocalDate start = LocalDate.of(1950, 1, 1);
        LocalDate a = moved(start.plusDays(first), days);
        LocalDate b = moved(start.plusDays(second), days);
        assertEquals(second - first, b.toEpochDay() - a.toEpochDay());
    }

    private static LocalDate moved(LocalDate date, int days) {
        String written = date.format(DateTimeFormatter.BASIC_ISO_DATE);
        return LocalDate.parse(ShiftedDates.date(written, days).orElseThrow(), DateTimeFormatter.BASIC_ISO_DATE);
    }
}
