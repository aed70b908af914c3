package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class GapWidthTest {

    private static final double ROUNDING = 1e-9;

    @Test
    void readsTheWidthOffTheTable() {
        GapWidth widths = GapWidth.of(width -> 0.9 * width - 0.5, 1, 5);

        // By hand: 0.9 · 3 − 0.5 = 2.2
        assertEquals(3, widths.widthMm(2.2), ROUNDING);
        // By hand: the first width run is 1.1 at 0.49; outside the table the same shift
        assertEquals(1.1 - 0.2, widths.widthMm(0.29), ROUNDING);
        // By hand: the last is 5.0 at 4.0
        assertEquals(5.5, widths.widthMm(4.5), ROUNDING);
    }

    @Test
    void leavesOutWidthsWhosePlaceFallsBackOrIsNone() {
        GapWidth widths = GapWidth.of(width -> width > 2 && width < 3 ? Double.NaN : width - 0.5, 1, 5);

        // By hand: between 2.0 at 1.5 and 3.0 at 2.5 the line is the same
        assertEquals(2.5, widths.widthMm(2), ROUNDING);
        GapWidth falling = GapWidth.of(width -> width > 2 && width < 2.5 ? 1.2 : width - 0.5, 1, 5);
        assertEquals(3, falling.widthMm(2.5), ROUNDING);
    }

    @Test
    void takesThePlaceWhereNothingIsKnown() {
        assertEquals(1.7, GapWidth.none().widthMm(1.7), 0);
        assertTrue(Double.isNaN(GapWidth.none().widthMm(Double.NaN)));
    }

    @Test
    void undoesTheRuleOnItsOwnModel() {
        ProfileModel model = new ProfileModel(2100, 30, 700, 0.8, 220, 0.4);
        MeasurementSettings settings = MeasurementSettings.withDefaults();
        FaceLayer face = new FaceLayer(3, -2.5, true, false);
        DetectionLimit rule = new DetectionLimit(new SampleClassifier(0.8, 125, settings), face, Double.NaN, 0);
        GapWidth widths = rule.widths(model, 1.5);
        Profile seen = model.profile(-3, settings.profileOutsideMm(), settings.profileStepMm(), 2.35);
        ImplantEdge edge = ImplantEdge.find(seen, face, Double.NaN, model.sigmaMm(), settings);
        SampleClassifier.Outcome outcome =
                new SampleClassifier(0.8, 125, settings).classify(seen, edge.tMm(), Double.POSITIVE_INFINITY);

        // Phantom: a gap of 2.35 mm; places are read in steps of 0.1 mm
        assertEquals(2.35, widths.widthMm(outcome.boneAtMm() - edge.tMm()), 0.06);
        assertTrue(outcome.boneAtMm() - edge.tMm() < 2, "short by itself: " + (outcome.boneAtMm() - edge.tMm()));
    }
}
