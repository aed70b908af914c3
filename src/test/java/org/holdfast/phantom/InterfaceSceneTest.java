package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class InterfaceSceneTest {

    private static final InterfaceSpec TILTED =
            InterfaceSpec.withDefaults().at(new PatientPoint(3, -4, 5)).facing(PatientVector.POSTERIOR, 11, -7);

    @Test
    void sceneHasTheGapsOfItsPattern() {
        FaceFrame face = TILTED.face();
        InterfaceScene made = InterfaceScene.of(TILTED, GapPattern.drawn(face, 5, 4, 0.5, 0.2, 4, 99));
        Random random = new Random(1);
        for (int n = 0; n < 500; n++) {
            double u = 14 * random.nextDouble() - 7;
            double v = 12 * random.nextDouble() - 6;
            if (made.pattern().distanceFromChangeMm(u, v) < 0.01) {
                continue;
            }
            double gap = made.trueGapMm(u, v);
            // Phantom: implant below the face, fluid up to the gap, then 0.8 mm front, then trabecular bone.
            assertEquals(2100, made.scene().huAt(face.point(u, v, -0.01)));
            if (gap > 0.02) {
                assertEquals(30, made.scene().huAt(face.point(u, v, gap - 0.01)));
            }
            assertEquals(600, made.scene().huAt(face.point(u, v, gap + 0.01)));
            assertEquals(600, made.scene().huAt(face.point(u, v, gap + 0.79)));
            assertEquals(160, made.scene().huAt(face.point(u, v, gap + 0.81)));
        }
    }

    @Test
    void coreLiesUnderPorousLayer() {
        InterfaceScene made = InterfaceScene.of(TILTED, GapPattern.uniform(7, 6, 0));
        assertEquals(2100, made.scene().huAt(TILTED.face().point(0, 0, -2.49)));
        assertEquals(7500, made.scene().huAt(TILTED.face().point(0, 0, -2.51)));
    }

    @Test
    void faceIsTiltedByItsAngles() {
        FaceFrame face = InterfaceSpec.withDefaults()
                .facing(PatientVector.CRANIAL, 12, 0)
                .face();
        // By hand: a turn of 12° about an axis in the face turns the normal by 12°.
        assertEquals(12, face.normal().angleDegTo(PatientVector.CRANIAL), 1e-9);
    }

    @Test
    void patternGivesItsShares() {
        GapPattern pattern = GapPattern.stripes(7, 6, 0, 0.6, 1.5, 3);
        // By hand: four equal stripes.
        assertEquals(0.25, pattern.contactShare(), 1e-12);
        assertEquals(0.25, pattern.shareUnder(0.6), 1e-12);
        assertEquals(0.5, pattern.shareUnder(0.61), 1e-12);
        assertEquals(1, pattern.shareUnder(5), 1e-12);
        // By hand: stripes end at −3.5, 0, 3.5.
        assertEquals(0.6, pattern.gapMm(-1, 0));
        assertEquals(1.0, pattern.distanceFromChangeMm(-1, 0), 1e-12);
        assertEquals(Double.POSITIVE_INFINITY, GapPattern.uniform(7, 6, 1).distanceFromChangeMm(0, 0));
        // By hand: contact over 30 % of the face.
        assertEquals(0.3, GapPattern.contactAndGap(7, 6, 0.3, 2).contactShare(), 1e-12);
    }

    @Test
    void drawnPatternRepeatsWithItsSeed() {
        FaceFrame face = TILTED.face();
        GapPattern a = GapPattern.drawn(face, 6, 5, 0.4, 0.1, 2, 5);
        GapPattern b = GapPattern.drawn(face, 6, 5, 0.4, 0.1, 2, 5);
        GapPattern other = GapPattern.drawn(face, 6, 5, 0.4, 0.1, 2, 6);
        assertEquals(a.gapMm(1, 1), b.gapMm(1, 1));
        assertEquals(a.contactShare(), b.contactShare());
        assertTrue(a.shareUnder(1) != other.shareUnder(1) || a.gapMm(1, 1) != other.gapMm(1, 1));
    }

    @Test
    void refusesPatternThatDoesNotFit() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new GapPattern(new double[] {0, 1}, new double[] {0, 1}, new double[][] {{0, 1}}));
        assertThrows(
                IllegalArgumentException.class,
                () -> new GapPattern(new double[] {1, 0}, new double[] {0, 1}, new double[][] {{0}}));
        assertThrows(IllegalArgumentException.class, () -> GapPattern.uniform(7, 6, -1));
        assertThrows(IllegalArgumentException.class, () -> GapPattern.contactAndGap(7, 6, 1.2, 1));
    }
}
