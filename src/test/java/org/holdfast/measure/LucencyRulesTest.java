package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** What counts as a zone, and what a zone tells. */
class LucencyRulesTest {

    private static LucencySettings rule(LucencySettings.Comparison comparison, double limitMm) {
        return new LucencySettings(limitMm, comparison, LucencySettings.JudgedBy.CIRCUMFERENTIAL_MEAN, 100, 3, 100);
    }

    @Test
    void overOneMillimetreLeavesOneMillimetreOut() {
        LucencySettings over = LucencySettings.withDefaults();
        assertFalse(over.isOver(1.00));
        assertTrue(over.isOver(1.01));
    }

    @Test
    void holdsTheHundredthThatIsPrintedAgainstTheLimit() {
        LucencySettings over = LucencySettings.withDefaults();
        assertFalse(over.isOver(1.004), "printed as 1.00");
        assertTrue(over.isOver(1.006), "printed as 1.01");
    }

    @Test
    void atLeastTakesTheLimitIn() {
        LucencySettings atLeast = rule(LucencySettings.Comparison.AT_LEAST, 2);
        assertFalse(atLeast.isOver(1.99));
        assertTrue(atLeast.isOver(2.00));
    }
}
