package org.holdfast.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.measure.ContactByFit;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.Obstacle;
import org.holdfast.phantom.HuScale;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class GapValidationTest {

    @Test
    void quickRunReachesTheGoalsOfTheFit() {
        List<ValidationRow> rows = GapValidation.run(new GapValidation.Extent(6, 4), 0, Progress.NONE);
        List<ValidationRow> widths = rows.stream()
                .filter(r -> r.measure().startsWith("gap 0.3") && r.goal().isPresent())
                .toList();
        assertEquals(2, widths.size(), "porous and solid titanium have a goal");
        for (ValidationRow row : widths) {
            assertTrue(row.reached().orElseThrow(), () -> "goal missed: " + row);
        }
        ValidationRow falseCalls = rows.stream()
                .filter(r -> r.measure().startsWith("bone on the implant"))
                .findFirst()
                .orElseThrow();
        assertTrue(falseCalls.reached().orElseThrow(), () -> "goal missed: " + falseCalls);
    }

    @Test
    void laterExamKeepsThresholdAndFindsTheSameGaps() {
        ContactScene scene = ContactScene.draw(
                ContactScene.Conditions.GOAL_SET,
                ContactScene.Gaps.LARGE_AREAS,
                Material.TITANIUM_POROUS,
                HuScale.EXTENDED_30710,
                0.4,
                77);
        ExamScan exam = ContactValidation.examOf(scene);
        Construct construct = scene.construct();
        MeasurementSettings settings = FitSeries.settings();
        ContactByFit estimator =
                new ContactByFit(construct, construct.interfaces().get(0), settings);
        ContactByFit.Measured first = estimator.measureReference(exam);
        ContactByFit.Measured second = estimator.measureFollowUp(exam, first.reference());
        FittedContact one = first.contact().value().orElseThrow();
        FittedContact two = second.contact().value().orElseThrow();
        // Phantom: the same scan again, so the same threshold, kept from the first.
        assertEquals(one.boneHu(), two.boneHu(), 0);
        // Phantom: the same scan; the known edge hardly moves the fit.
        assertEquals(
                one.fraction().value().orElseThrow(), two.fraction().value().orElseThrow(), 0.01);
        double shares = two.obstacles().values().stream().mapToDouble(s -> s).sum();
        // By hand: the causes share out what is not assessable.
        assertEquals(two.notAssessable(), shares, 1e-9);
        for (FittedReading reading : two.readings()) {
            assertTrue(reading.obstacle().filter(o -> o == Obstacle.UNCERTAIN).isEmpty()
                    || reading.gapMm().isEmpty());
        }
    }
}
