package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.phantom.DemoSeries;
import org.holdfast.phantom.DemoTruth;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** Continuity over the demo subject's course, small size, at its true poses. */
class ContinuityDemoTest {

    private static final int SURGERY = 0;
    private static final int MONTH_12 = 3;
    private static final int MONTH_24 = 4;
    /** Voxels of 0.65 × 0.6 mm and noise of 20 HU, with a point spread taken from kernel and thickness. */
    private static final double WIDTH_TOLERANCE_MM = 0.1;

    private static final double PLACE_TOLERANCE_MM = 0.5;

    private final DemoSeries demo = new DemoSeries(DemoSeries.Size.SMALL);
    private final Construct construct = demo.construct();
    private final DemoTruth truth = demo.truth();
    private final Map<String, ContinuityMeasure.Reference> references = new HashMap<>();

    private ExamScan scan(int exam) {
        HuVolume volume = demo.scan(exam, Progress.NONE);
        return new ExamScan(
                demo.exams().get(exam).label(),
                demo.exams().get(exam).seriesUid(),
                "00",
                volume,
                Acquisition.unknown(),
                PointSpreadEstimate.ofKernelAndThickness(Acquisition.unknown(), volume.grid()),
                truth.exams().get(exam).referenceToExam(),
                ExamScan.PoseKind.REGISTERED);
    }

    private Map<String, Continuity> measure(int exam) {
        ExamScan scan = scan(exam);
        Map<String, Continuity> found = new HashMap<>();
        for (Component part : construct.components()) {
            if (ContinuityMeasure.appliesTo(part)) {
                ContinuityMeasure measure = new ContinuityMeasure(construct, part, MeasurementSettings.withDefaults());
                ContinuityMeasure.Measured measured = exam == SURGERY
                        ? measure.measureReference(scan)
                        : measure.measureFollowUp(scan, references.get(part.id()));
                references.putIfAbsent(part.id(), measured.reference());
                found.put(part.id(), measured.continuity().value().orElseThrow());
            }
        }
        return found;
    }

    @Test
    void findsTheBrokenScrewAndTheBrokenRodAndNothingElse() {
        assertBreaks(SURGERY);
        Continuity.Break screw =
                assertBreaks(MONTH_12).get("screw-l2-left").breaks().get(0);
        // Phantom: the broken-off end has come 0.5 mm cranially, hardly along the screw
        assertEquals(0.5, screw.stepMm().value().orElseThrow(), 0.05);
        Map<String, Continuity> last = assertBreaks(MONTH_24);
        Continuity.Break rod = last.get("rod-right").breaks().get(0);
        // Phantom: ends 0.6 mm aside of each other
        assertEquals(0.6, rod.stepMm().value().orElseThrow(), 0.05);
        // Phantom: a straight cut
        assertEquals(1.0, rod.gapPerpendicularMm().value().orElseThrow(), WIDTH_TOLERANCE_MM);
        assertTrue(last.values().stream().noneMatch(Continuity::isBent));
    }

    private Map<String, Continuity> assertBreaks(int exam) {
        Map<String, Continuity> found = measure(exam);
        List<DemoTruth.BreakTruth> breaks = truth.exams().get(exam).breaks();
        found.forEach((id, continuity) -> {
            List<DemoTruth.BreakTruth> own =
                    breaks.stream().filter(b -> b.component().equals(id)).toList();
            assertEquals(own.size(), continuity.breaks().size(), () -> id + ": " + continuity.breaks());
            for (int n = 0; n < own.size(); n++) {
                Continuity.Break seen = continuity.breaks().get(n);
                // Phantom: the demo's truth
                assertEquals(own.get(n).atMm(), seen.atMm(), PLACE_TOLERANCE_MM);
                // Phantom: the demo's truth
                assertEquals(
                        own.get(n).gapAlongAxisMm(),
                        seen.gapAlongAxisMm().value().orElseThrow(),
                        WIDTH_TOLERANCE_MM);
            }
        });
        return found;
    }
}
