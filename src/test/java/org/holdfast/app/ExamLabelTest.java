package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ExamLabelTest {

    // By hand: days / 30.4375, rounded: 14 → 0.46, 15 → 0.49, 16 → 0.53, 45 → 1.48, 46 → 1.51, 365 → 11.99,
    // 730 → 23.98; before the operation the same with a minus sign.
    @ParameterizedTest
    @CsvSource({
        "0, surgery", "1, surgery", "13, surgery", "14, 0 mo", "15, 0 mo", "16, 1 mo", "45, 1 mo", "46, 2 mo",
        "91, 3 mo", "365, 12 mo", "730, 24 mo", "-1, -0 mo", "-15, -0 mo", "-16, -1 mo", "-45, -1 mo", "-46, -2 mo"
    })
    void followsTheDay(int days, String label) {
        assertEquals(label, ExamLabel.of(OptionalInt.of(days)));
    }

    @Test
    void saysThatAnExamIsUndated() {
        assertEquals("undated", ExamLabel.of(OptionalInt.empty()));
    }

    @Test
    void countsWholeDaysOverALeapDay() {
        // By hand: 28 February to 1 March of a leap year.
        assertEquals(2, ExamLabel.daysSince(LocalDate.of(2024, 2, 28), LocalDate.of(2024, 3, 1)));
        assertEquals(-2, ExamLabel.daysSince(LocalDate.of(2024, 3, 1), LocalDate.of(2024, 2, 28)));
    }
}
