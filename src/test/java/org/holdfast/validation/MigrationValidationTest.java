package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class MigrationValidationTest {

    @Test
    void quickRunOfMigrationReachesEveryGoal() {
        List<ValidationRow> rows = MigrationValidation.quick(0, Progress.NONE);
        assertTrue(rows.size() >= 10, () -> "rows of body, screw, sinking and landing: " + rows);
        for (ValidationRow row : rows) {
            assertTrue(row.reached().orElse(true), () -> "goal missed: " + row);
        }
    }

    @Test
    void quickRunOfRegistrationReachesEveryGoal() {
        List<ValidationRow> rows = RegistrationValidation.quick(0, Progress.NONE);
        assertEquals(5, rows.size());
        for (ValidationRow row : rows) {
            assertTrue(row.reached().orElse(true), () -> "goal missed: " + row);
        }
    }
}
