package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class LucencyValidationTest {

    @Test
    void quickRunReachesItsGoals() {
        List<ValidationRow> rows = LucencyValidation.quick(0, Progress.NONE);
        List<ValidationRow> held =
                rows.stream().filter(row -> row.reached().isPresent()).toList();
        assertEquals(2, held.size(), "the width by station and its standard error have goals");
        for (ValidationRow row : held) {
            assertTrue(row.reached().orElseThrow(), () -> "goal missed: " + row);
        }
    }
}
