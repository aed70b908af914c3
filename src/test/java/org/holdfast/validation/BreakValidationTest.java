package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class BreakValidationTest {

    @Test
    void quickRunReachesItsGoals() {
        List<ValidationRow> rows = BreakValidation.quick(0, Progress.NONE);
        // By hand: 5 goals on each of 2 scales in the goal set, none in the stress set
        assertEquals(10, rows.stream().filter(r -> r.reached().isPresent()).count());
        rows.forEach(row -> assertTrue(row.reached().orElse(true), () -> "missed: " + row));
    }

    @Test
    void theSameDrawGivesTheSameRows() {
        assertEquals(BreakValidation.run(1, 0, 3, Progress.NONE), BreakValidation.run(1, 0, 3, Progress.NONE));
    }
}
