package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Material;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class ContactValidationTest {

    @Test
    void quickRunReachesEveryGoal() {
        List<ValidationRow> rows = ContactValidation.quick(0, Progress.NONE);
        long goals = rows.stream().filter(row -> row.goal().isPresent()).count();
        assertEquals(6, goals, "porous and solid titanium have goals, by threshold and by fit in two directions");
        for (ValidationRow row : rows) {
            assertTrue(row.reached().orElse(true), () -> "goal missed: " + row);
        }
    }

    @Test
    void rowGivesBiasAndLimits() {
        ValidationRow row =
                ValidationRow.of("m", "analytic", "titanium", new double[] {0.01, 0.03, -0.01}, 4, Optional.empty());
        // By hand: mean 0.01, deviations 0, 0.02, −0.02, SD √(0.0008 / 2) = 0.02, limits 0.01 ± 1.96 · 0.02.
        assertEquals(0.01, row.bias().orElseThrow(), 1e-12);
        assertEquals(-0.0292, row.lower().orElseThrow(), 1e-12);
        assertEquals(0.0492, row.upper().orElseThrow(), 1e-12);
        assertEquals(Optional.empty(), row.reached());
    }

    @Test
    void goalIsMissedByBiasByEitherLimitAndByTooFewScenes() {
        ValidationRow.Goal goal = new ValidationRow.Goal(0.01, 0.03);
        assertTrue(reached(goal, 0.005, -0.005));
        assertFalse(reached(goal, 0.012, 0.013));
        assertFalse(reached(goal, -0.03, 0.03));
        assertFalse(reached(goal, 0.001));
        assertFalse(reached(goal));
    }

    private static boolean reached(ValidationRow.Goal goal, double... differences) {
        return ValidationRow.of("m", "analytic", "titanium", differences, 0, Optional.of(goal))
                .reached()
                .orElseThrow();
    }

    @Test
    void sameSeedGivesTheSameScene() {
        ContactScene one = ContactScene.draw(
                ContactScene.Conditions.GOAL_SET,
                ContactScene.Gaps.LARGE_AREAS,
                Material.TITANIUM_POROUS,
                HuScale.EXTENDED_30710,
                0.5,
                42);
        ContactScene two = ContactScene.draw(
                ContactScene.Conditions.GOAL_SET,
                ContactScene.Gaps.LARGE_AREAS,
                Material.TITANIUM_POROUS,
                HuScale.EXTENDED_30710,
                0.5,
                42);
        assertEquals(one.scene().spec(), two.scene().spec());
        assertEquals(one.statedSpread(), two.statedSpread());
        assertEquals(one.scan().noiseSdHu(), two.scan().noiseSdHu());
    }

    @Test
    void sceneWhoseGapsAllLieNearTheLimitIsCountedApart() {
        ContactScene drawn = ContactScene.draw(
                ContactScene.Conditions.GOAL_SET,
                ContactScene.Gaps.LARGE_AREAS,
                Material.TITANIUM_SOLID,
                HuScale.EXTENDED_30710,
                1,
                2_001);
        ThresholdContact contact = ContactValidation.measure(drawn, MeasurementSettings.withDefaults());
        double limit = contact.smallestVisibleGapMm().value().orElseThrow();
        // Phantom: contact all over, far under the limit: every sample counts.
        assertTrue(ContactValidation.differenceOf(drawn, contact).isPresent());
        // The same readings against a truth of one gap, 0.1 mm under the limit: nothing is left to count.
        ContactScene near = new ContactScene(
                InterfaceScene.of(
                        drawn.scene().spec(),
                        GapPattern.uniform(
                                drawn.scene().face().halfUMm(),
                                drawn.scene().face().halfVMm(),
                                limit - 0.1)),
                drawn.scan(),
                drawn.material(),
                drawn.statedSpread());
        assertTrue(ContactValidation.differenceOf(near, contact).isEmpty());
    }
}
