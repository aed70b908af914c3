package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

/** The rules by threshold on profiles written by hand, and the arithmetic of shares. */
class ThresholdRulesTest {

    private static final MeasurementSettings SETTINGS = MeasurementSettings.withDefaults();
    private static final double NO_CUT = Double.POSITIVE_INFINITY;

    /** A profile from −3 to 8 mm: implant 2100 HU up to 0, then the given HU from each place on. */
    private static Profile profile(double... fromAndHu) {
        double[] hu = new double[111];
        for (int n = 0; n < hu.length; n++) {
            double t = -3 + 0.1 * n;
            hu[n] = 2100;
            for (int m = 0; m < fromAndHu.length; m += 2) {
                if (t > fromAndHu[m] - 1e-9) {
                    hu[n] = fromAndHu[m + 1];
                }
            }
        }
        return new Profile(-3, 0.1, hu);
    }

    private static SampleClassifier.Outcome classify(Profile profile, double cutMm) {
        return new SampleClassifier(0.8, 145, SETTINGS).classify(profile, 0, cutMm);
    }

    @Test
    void concludesNothingInsideTheGuard() {
        // By hand: bone from 0.9 mm on fills the window that begins at 0.9 mm, within 0.2 mm of the guard's end 0.8.
        assertEquals(
                Tissue.CONTACT, classify(profile(0.05, 30, 0.9, 260), NO_CUT).tissue());
    }

    @Test
    void givesTheGapFromTheEdgeToTheFirstWindowOfBone() {
        SampleClassifier.Outcome outcome = classify(profile(0.05, 30, 3.0, 260), NO_CUT);
        assertEquals(Tissue.GAP, outcome.tissue());
        // By hand: six samples 30…30,260: mean ≥ 145 from three of 260 on, so the window [2.7, 3.2].
        assertEquals(2.7, outcome.boneAtMm(), 0.051);
    }

    @Test
    void callsBoneBeyondTheLimitNoBone() {
        assertEquals(
                Tissue.NO_BONE, classify(profile(0.05, 30, 6.6, 260), NO_CUT).tissue());
    }

    @Test
    void cutsBeforeOtherMetal() {
        assertEquals(
                Obstacle.OTHER_METAL, classify(profile(0.05, 30, 3, 260), 2.0).obstacle());
        // Metal that is not laid out: 3000 HU from 3 mm on, cut at 1.5 mm, nearer than the artefact window's end.
        assertEquals(
                Obstacle.OTHER_METAL,
                classify(profile(0.05, 30, 3, 3000), NO_CUT).obstacle());
        assertEquals(
                Tissue.CONTACT, classify(profile(0.05, 260, 5, 3000), NO_CUT).tissue());
    }

    @Test
    void callsDarkPlacesArtefact() {
        assertEquals(
                Obstacle.DARK_STREAK,
                classify(profile(0.05, 30, 1.2, -201, 1.4, 260), NO_CUT).obstacle());
        assertEquals(
                Tissue.GAP,
                classify(profile(0.05, 30, 1.2, -199, 1.4, 260), NO_CUT).tissue());
    }

    @Test
    void callsMissingImageOutside() {
        assertEquals(
                Obstacle.OUTSIDE_IMAGE,
                classify(profile(0.05, 30, 1.2, Double.NaN), NO_CUT).obstacle());
    }

    @Test
    void choosesTheGuardByMaterialVoxelAndClipping() {
        FaceLayer porous = new FaceLayer(3, -2.5, true, false);
        FaceLayer solid = new FaceLayer(3, -3, false, true);
        FaceLayer other = new FaceLayer(3, -3, false, false);
        // Source: measurement definitions, section 3 step 3.
        assertEquals(0.8, porous.guardMm(0.7, false, SETTINGS), 0);
        assertEquals(1.0, solid.guardMm(0.4, false, SETTINGS), 0);
        assertEquals(1.4, solid.guardMm(0.7, false, SETTINGS), 1e-12);
        assertEquals(2.0, other.guardMm(0.5, false, SETTINGS), 0);
        assertEquals(2.1, other.guardMm(0.7, false, SETTINGS), 1e-12);
        assertEquals(2.1, porous.guardMm(0.7, true, SETTINGS), 1e-12);
    }

    @Test
    void takesTheEdgeOfClippedMetalBelowTheCeilingAndCorrectsItsShift() throws SettingsException {
        // Phantom: 7500 HU metal against 100 HU, σ 0.4 mm, clipped at 3071 HU.
        ProfileModel model = new ProfileModel(7500, 100, 100, 1, 100, 0.4);
        Profile seen = model.profile(-3, 8, 0.1, 0).clippedAt(3071);
        FaceLayer layer = new FaceLayer(3, -3, false, true);
        ImplantEdge raw = ImplantEdge.find(seen, layer, 3071, 0.4, SETTINGS);
        assertTrue(raw.isClipped());
        // By hand: 0.4 · Φ⁻¹((7500 − 2571) / 7400) = 0.4 · Φ⁻¹(0.66608) = 0.4 · 0.42911 = 0.1716 mm.
        assertEquals(0.1716, raw.tMm(), 0.01);
        MeasurementSettings known = SettingsJson.parse("{\"knownMetalHu\": 7500}", "test");
        assertEquals(0, ImplantEdge.find(seen, layer, 3071, 0.4, known).tMm(), 0.01);
    }

    @Test
    void sharesFollowTheWorkedExample() {
        List<PatchSample> samples = new ArrayList<>();
        List<SampleClassifier.Outcome> outcomes = new ArrayList<>();
        for (int n = 0; n < 1000; n++) {
            samples.add(new PatchSample(PatientPoint.ORIGIN, PatientVector.CRANIAL, 0.25, 0, 0));
            outcomes.add(
                    n < 650
                            ? new SampleClassifier.Outcome(Tissue.CONTACT, null, 1)
                            : n < 850
                                    ? new SampleClassifier.Outcome(Tissue.GAP, null, 2)
                                    : new SampleClassifier.Outcome(
                                            Tissue.NOT_ASSESSABLE, Obstacle.DARK_STREAK, Double.NaN));
        }
        AreaShares shares = new AreaShares(samples, outcomes);
        // Source: measurement definitions, section 3, worked arithmetic: 76.47 % of assessable, bounds 65.0–80.0 %.
        assertEquals(0.7647, shares.contactOfAssessable(), 5e-5);
        assertEquals(0.650, shares.contactMm2() / shares.totalMm2(), 1e-12);
        assertEquals(0.800, (shares.contactMm2() + shares.notAssessableMm2()) / shares.totalMm2(), 1e-12);
    }

    @Test
    void settingsNameTheFieldAtFault() {
        SettingsException unknown =
                assertThrows(SettingsException.class, () -> SettingsJson.parse("{\"boneHU\": 3}", "s.json"));
        assertTrue(unknown.getMessage().startsWith("s.json: unknown setting 'boneHU'"), unknown.getMessage());
        SettingsException range =
                assertThrows(SettingsException.class, () -> SettingsJson.parse("{\"fluidHu\": 900}", "s.json"));
        assertTrue(range.getMessage().contains("fluidHu must lie in [-100.0, 150.0], got 900"), range.getMessage());
        SettingsException word =
                assertThrows(SettingsException.class, () -> SettingsJson.parse("{\"boneThreshold\": \"X\"}", "s.json"));
        assertTrue(word.getMessage().contains("HOST_RELATIVE, FIXED"), word.getMessage());
    }

    @Test
    void settingsSurviveTheRoundTrip() throws SettingsException {
        MeasurementSettings settings = SettingsJson.parse("{\"fixedBoneHu\": 187.5}", "test");
        assertEquals(settings, SettingsJson.parse(SettingsJson.write(settings).toString(), "test"));
    }

    @Test
    void weightedQuantilesCountArea() {
        double[] values = {3, 1, 2};
        double[] areas = {2, 1, 1};
        // By hand: cumulative middles 0.5 (value 1), 1.5 (value 2), 3.0 (value 3) of 4; half of 4 is 2.0, a third of
        // the
        // way from 1.5 to 3.0: 2 + 1/3.
        assertEquals(2 + 1.0 / 3, Quantiles.weighted(values, areas, 0.5), 1e-12);
        // By hand: 0.4 lies before the first middle, 3.6 after the last.
        assertEquals(1, Quantiles.weighted(values, areas, 0.1), 0);
        // By hand: the same at the other end.
        assertEquals(3, Quantiles.weighted(values, areas, 0.9), 0);
        // By hand: (2·3 + 1·1 + 1·2) / 4 = 2.25.
        assertEquals(2.25, ThresholdContact.Spread.of(values, areas).mean().orElseThrow(), 1e-12);
    }
}
