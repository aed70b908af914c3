package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Material;
import org.holdfast.phantom.HuScale;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

/** Change map and porous fill on a few simulated exams; the whole set is run from the command line. */
class ChangeValidationTest {

    private static final ChangeValidation.Extent FEW = new ChangeValidation.Extent(4, 0, 2, 1, 3, 0);

    private static ValidationRow row(List<ValidationRow> rows, String measure) {
        return rows.stream()
                .filter(r -> r.measure().equals(measure))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void reachesItsGoalsOnAFewScenes() {
        List<ValidationRow> rows = ChangeValidation.run(FEW, 0, Progress.NONE);
        for (String measure : List.of(
                "changed surface found (goal set)",
                "unchanged surface called changed (goal set)",
                "unchanged surface called changed (pose off by 0.05 mm)",
                "porous fill (goal set)")) {
            assertEquals(Optional.of(true), row(rows, measure).reached(), measure);
        }
        assertTrue(row(rows, "changed surface found (goal set)").n() > 100);
        assertTrue(row(rows, "porous fill (goal set)").n() == 3);
    }

    @Test
    void theTruthFollowsTheGaps() {
        ChangeScene scene = ChangeScene.draw(
                ChangeScene.Course.NOTHING,
                ContactScene.Conditions.GOAL_SET,
                Material.TITANIUM_POROUS,
                HuScale.EXTENDED_30710,
                1);
        // By hand: nothing changed.
        assertEquals(0, scene.trueChangeHu(0, 0, 0.8, 2.8), 1e-9);
        // By hand: without change there is no border of a change.
        assertEquals(Double.POSITIVE_INFINITY, scene.areas().fromBorderMm(0, 0), 0);
    }
}
