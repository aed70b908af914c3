package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Host bone, its noise, the threshold that follows, and the bone's front, on a layered face of closed form. */
class HostBoneTest {

    private static final MeasurementSettings SETTINGS = MeasurementSettings.withDefaults();

    private static LayeredFace face(double frontHu, double deepHu) {
        return new LayeredFace(new ProfileModel(2100, 30, frontHu, 0.8, deepHu, 0.42));
    }

    private static FaceLayer layer(LayeredFace face) {
        return FaceLayer.of(face.construct.component("body"), samples(face), SETTINGS);
    }

    private static List<PatchSample> samples(LayeredFace face) {
        return face.face().patches().get(0).samples(SETTINGS.sampleSpacingMm());
    }

    private static FaceInExam seen(LayeredFace face, ExamScan exam) {
        FaceLayer layer = layer(face);
        FaceProfiles profiles = FaceProfiles.read(
                samples(face),
                FaceProfiles.cutsMm(samples(face), List.of(), SETTINGS),
                exam,
                new PatientVector(0, 0, 0),
                layer,
                SETTINGS);
        return FaceInExam.of(profiles, exam, layer, Optional.empty(), SETTINGS);
    }

    private static ExamScan noisy(LayeredFace face, double sdHu, int stepHu) {
        HuVolume clean = face.exam((x, y) -> 0).volume();
        var grid = clean.grid();
        Random random = new Random(7);
        short[][] hu = new short[grid.slices()][grid.columns() * grid.rows()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int n = 0; n < hu[k].length; n++) {
                double value = clean.hu(n % grid.columns(), n / grid.columns(), k) + sdHu * random.nextGaussian();
                hu[k][n] = (short) (stepHu * Math.rint(value / stepHu));
            }
        }
        return face.exam(HuVolume.ofHu(grid, hu), Acquisition.unknown());
    }

    private static double noiseSd(double sdHu, int stepHu) {
        LayeredFace face = face(700, 263);
        ExamScan exam = noisy(face, sdHu, stepHu);
        return HostBone.noiseSd(seen(face, exam), exam.volume(), SETTINGS);
    }

    @ParameterizedTest
    @CsvSource({"5, 1", "20, 1", "60, 1", "20, 10", "40, 10"})
    void noiseIsFoundWithinFivePercent(double sdHu, int stepHu) {
        // Phantom: Gaussian noise of known SD; some 4000 pairs leave 1.3 %, steps of 10 HU add 1 % at 20 HU.
        assertEquals(sdHu, noiseSd(sdHu, stepHu), 0.05 * sdHu);
    }

    @Test
    void noiseUnderCoarseStepsIsNotCalledNone() {
        // Phantom: SD 4 HU in steps of 10 HU leaves most differences 0; what is left tells the order of size only.
        assertEquals(4, noiseSd(4, 10), 2);
    }

    @Test
    void evenBoneHasNoNoise() {
        LayeredFace face = face(700, 260);
        ExamScan exam = face.exam((x, y) -> 0);
        assertEquals(0, HostBone.noiseSd(seen(face, exam), exam.volume(), SETTINGS), 0.1);
    }

    private static HostBone read(LayeredFace face, ExamScan exam) {
        FaceInExam seen = seen(face, exam);
        return HostBone.read(seen, HostBone.noiseSd(seen, exam.volume(), SETTINGS), SETTINGS);
    }

    @Test
    void thresholdIsMidwayButNeverUnderNoiseNorOverItsLimit() {
        // By hand: (30 + 260) / 2 = 145.
        HostBone midway = read(face(700, 260), face(700, 260).exam((x, y) -> 0));
        assertEquals(145, midway.boneHu(), 1);
        assertEquals("midway between fluid and host bone", midway.rule());
        // By hand: (30 + 900) / 2 = 465, over 350.
        HostBone dense = read(face(900, 900), face(900, 900).exam((x, y) -> 0));
        assertEquals(350, dense.boneHu(), 0);
        assertEquals("upper limit", dense.rule());
        // By hand: 30 + 3 · 40 = 150, over (30 + 100) / 2 = 65; the noise is found within 5 %.
        LayeredFace soft = face(300, 100);
        HostBone noise = read(soft, noisy(soft, 40, 1));
        assertEquals(150, noise.boneHu(), 6);
        assertEquals("fluid + 3.0 × noise SD", noise.rule());
    }

    @Test
    void withoutBoneOppositeTheThresholdIsFixedAndSaysWhy() {
        LayeredFace face = face(700, 260);
        HostBone none = read(face, face.exam((x, y) -> 20));
        assertEquals(Optional.empty(), none.hostHu().value().stream().boxed().findAny());
        assertEquals(SETTINGS.fixedBoneHu(), none.boneHu(), 0);
        assertTrue(none.rule().startsWith("fixed, since no bone opposite the face: 30 HU"), none.rule());
    }

    @ParameterizedTest
    @CsvSource({"400, 260", "700, 260", "900, 260", "500, 150", "260, 260"})
    void frontIsFoundWhereItStandsClear(double frontHu, double deepHu) {
        LayeredFace face = face(frontHu, deepHu);
        ExamScan exam = face.exam((x, y) -> x < 0 ? 1.8 : 2.6);
        double fitted = BoneFront.fit(
                        seen(face, exam), layer(face), 2100, deepHu, 0.42, 0.5 * (30 + deepHu), Double.NaN, SETTINGS)
                .orElseThrow();
        // Phantom: 0.8 mm thick as the fit takes it; it looks in steps of 25 HU, and the volume's linear interpolation
        // blurs a little more than the closed form.
        assertEquals(frontHu, fitted, 50);
    }

    @Test
    void withoutBoneInSightThereIsNoFront() {
        LayeredFace face = face(700, 260);
        ExamScan exam = face.exam((x, y) -> 20);
        assertTrue(BoneFront.fit(seen(face, exam), layer(face), 2100, 260, 0.42, 145, Double.NaN, SETTINGS)
                .isEmpty());
    }

    @Test
    void edgeAndPlateauAreMediansOfTheFace() {
        LayeredFace face = face(700, 260);
        FaceInExam seen = seen(face, face.exam((x, y) -> 20));
        // Phantom: with fluid beyond the face the half-maximum of the blurred edge is the edge itself, z = 0; the
        // plateau
        // is read between 2.5 and 1 mm behind it, Φ(1/0.42) leaves under 1 % of the step there.
        assertEquals(0, seen.edgeMm(), 0.02);
        assertEquals(2100, seen.plateauHu(), 2);
        assertEquals(0, seen.keptBeyondOwnMm(), 0);
        assertEquals(PatientVector.CRANIAL, seen.meanNormal());
    }
}
