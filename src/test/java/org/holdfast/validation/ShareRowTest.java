package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.holdfast.validation.ValidationRow.ShareGoal;
import org.junit.jupiter.api.Test;

class ShareRowTest {

    @Test
    void carriesTheShareAndItsInterval() {
        ValidationRow row = ValidationRow.ofShare("m", "analytic", "titanium", 38, 402, 3);
        // By hand: 38/402; Wilson limits 0.098365 ∓ 0.028765.
        assertEquals(0.0945, row.bias().orElseThrow(), 5e-5);
        assertEquals(0.0696, row.lower().orElseThrow(), 5e-5);
        assertEquals(0.1271, row.upper().orElseThrow(), 5e-5);
        assertEquals(3, row.notApplicable());
        assertTrue(row.isShare());
        assertEquals(Optional.empty(), row.reached());
    }

    @Test
    void holdsTheShareAgainstBothBounds() {
        assertEquals(Optional.of(true), reached(97, ShareGoal.atLeast(0.97)));
        assertEquals(Optional.of(false), reached(96, ShareGoal.atLeast(0.97)));
        assertEquals(Optional.of(true), reached(2, ShareGoal.atMost(0.02)));
        assertEquals(Optional.of(false), reached(3, ShareGoal.atMost(0.02)));
        assertEquals(Optional.of(true), reached(92, ShareGoal.between(0.92, 0.98)));
        assertEquals(Optional.of(false), reached(99, ShareGoal.between(0.92, 0.98)));
    }

    @Test
    void missesTheGoalWithNothingToCount() {
        ValidationRow row = ValidationRow.ofShare("m", "analytic", "titanium", 0, 0, 5, ShareGoal.atMost(0.02));
        assertEquals(Optional.of(false), row.reached());
        assertTrue(row.bias().isEmpty());
    }

    @Test
    void refusesABoundOutsideTheShares() {
        assertThrows(IllegalArgumentException.class, () -> ShareGoal.atLeast(97));
        assertThrows(IllegalArgumentException.class, () -> ShareGoal.between(0.98, 0.92));
    }

    private static Optional<Boolean> reached(int hitsOf100, ShareGoal goal) {
        return ValidationRow.ofShare("m", "analytic", "titanium", hitsOf100, 100, 0, goal)
                .reached();
    }
}
