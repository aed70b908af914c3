package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

final class DayTextTest {

    @Test
    void readsYearMonthDayWithBlanksAround() {
        assertEquals(new DayText(Optional.of(LocalDate.of(2031, 4, 12)), ""), DayText.of(" 2031-04-12 "));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "   ", "\t"})
    void nothingIsNoFault(String text) {
        assertEquals(new DayText(Optional.empty(), ""), DayText.of(text));
    }

    @ParameterizedTest
    @ValueSource(strings = {"12.04.2031", "04/12/2031", "2031-4-12", "2031-02-30", "20310412", "soon"})
    void otherOrdersAndDaysThatAreNotAreRefused(String text) {
        assertEquals(new DayText(Optional.empty(), "expected a day such as 2031-04-12"), DayText.of(text));
    }
}
