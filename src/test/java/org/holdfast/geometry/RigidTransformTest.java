package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class RigidTransformTest {

    /** Double arithmetic on numbers up to some hundred. */
    private static final double ROUNDING = 1e-12;

    private static void assertPoint(double x, double y, double z, PatientPoint p, double tolerance) {
        assertEquals(x, p.x(), tolerance);
        assertEquals(y, p.y(), tolerance);
        assertEquals(z, p.z(), tolerance);
    }

    private static RigidTransform random(Random random) {
        return RigidTransform.rotation(
                        new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian()),
                        360 * random.nextDouble() - 180,
                        new PatientPoint(100 * random.nextGaussian(), 0, 50))
                .then(RigidTransform.translation(new PatientVector(random.nextGaussian(), 5, -7)));
    }

    @Test
    void turnsRightHandedAboutZ() {
        RigidTransform quarter = RigidTransform.rotation(PatientVector.CRANIAL, 90, PatientPoint.ORIGIN);

        // By hand: x goes to y, y to −x, z stays
        assertPoint(-2, 1, 3, quarter.apply(new PatientPoint(1, 2, 3)), ROUNDING);
    }

    @Test
    void turnsAboutTheDiagonalByAThird() {
        RigidTransform third = RigidTransform.rotation(new PatientVector(1, 1, 1), 120, PatientPoint.ORIGIN);

        // By hand: 120° about (1, 1, 1) goes x → y → z → x
        assertPoint(3, 1, 2, third.apply(new PatientPoint(1, 2, 3)), ROUNDING);
    }

    @Test
    void followsRodriguesFormula() {
        RigidTransform turn = RigidTransform.rotation(new PatientVector(0, 3, 4), 30, PatientPoint.ORIGIN);

        // By hand: a = (0, 0.6, 0.8), p = (1, 0, 0): p cos 30° + (a × p) sin 30° + a (a·p)(1 − cos 30°),
        // a × p = (0, 0.8, −0.6), a·p = 0 → (0.8660254, 0.4, −0.3)
        assertPoint(Math.sqrt(3) / 2, 0.4, -0.3, turn.apply(new PatientPoint(1, 0, 0)), ROUNDING);
    }

    @Test
    void givesTheRotationAsAVector() {
        RigidTransform turn = RigidTransform.rotation(new PatientVector(0, 3, 4), 30, new PatientPoint(5, 6, 7));

        // By hand: 30° along (0, 0.6, 0.8)
        assertEquals(
                0, turn.rotationVectorDeg().minus(new PatientVector(0, 18, 24)).norm(), 1e-12 * 180);
        // By hand: for an angle this small the sine is the angle
        RigidTransform tiny = RigidTransform.rotation(PatientVector.LEFT, 1e-12, PatientPoint.ORIGIN);
        assertEquals(1e-12, tiny.rotationVectorDeg().x(), 1e-15);
        assertEquals(0, RigidTransform.IDENTITY.rotationVectorDeg().norm(), 0);
    }

    @Test
    void keepsTheCentreOfARotation() {
        PatientPoint centre = new PatientPoint(12, -7, 305);
        RigidTransform turn = RigidTransform.rotation(new PatientVector(1, 2, 3), 17, centre);

        assertPoint(12, -7, 305, turn.apply(centre), 1e-10);
    }

    @Test
    void movesPointsAndTurnsDirections() {
        RigidTransform move = RigidTransform.translation(new PatientVector(1, 2, 3));

        assertEquals(new PatientPoint(2, 2, 3), move.apply(new PatientPoint(1, 0, 0)));
        assertEquals(new PatientVector(1, 0, 0), move.apply(new PatientVector(1, 0, 0)));
    }

    @Test
    void appliesFirstThisThenTheNext() {
        RigidTransform move = RigidTransform.translation(new PatientVector(10, 0, 0));
        RigidTransform quarter = RigidTransform.rotation(PatientVector.CRANIAL, 90, PatientPoint.ORIGIN);

        // By hand: (1, 0, 0) → (11, 0, 0) → (0, 11, 0); the other order → (0, 1, 0) → (10, 1, 0)
        assertPoint(0, 11, 0, move.then(quarter).apply(new PatientPoint(1, 0, 0)), ROUNDING);
        assertPoint(10, 1, 0, quarter.then(move).apply(new PatientPoint(1, 0, 0)), ROUNDING);
    }

    @Test
    void compositionAndInverseHoldOnRandomTransforms() {
        Random random = new Random(11);
        for (int n = 0; n < 200; n++) {
            RigidTransform a = random(random);
            RigidTransform b = random(random);
            PatientPoint p = new PatientPoint(10 * random.nextGaussian(), 20, 300 * random.nextDouble());
            PatientPoint both = b.apply(a.apply(p));

            assertPoint(both.x(), both.y(), both.z(), a.then(b).apply(p), 1e-9);
            assertPoint(p.x(), p.y(), p.z(), a.inverse().apply(a.apply(p)), 1e-9);
            assertEquals(0, a.then(a.inverse()).rotationAngleDeg(), 1e-6);
            assertEquals(p.distanceTo(PatientPoint.ORIGIN), a.apply(p).distanceTo(a.apply(PatientPoint.ORIGIN)), 1e-9);
        }
    }

    @Test
    void tellsItsAngleAlsoNearZeroAndAtHalfATurn() {
        for (double angle : new double[] {0, 1e-6, 0.03, 45, 90, 179.999, 180}) {
            RigidTransform turn = RigidTransform.rotation(new PatientVector(1, -2, 0.5), angle, PatientPoint.ORIGIN);

            assertEquals(angle, turn.rotationAngleDeg(), 1e-9);
        }
    }

    @Test
    void goesThroughItsMatrix() {
        RigidTransform turn = RigidTransform.rotation(new PatientVector(1, 2, 3), 17, new PatientPoint(1, 2, 3));

        assertEquals(turn, RigidTransform.ofMatrix(turn.toMatrix()));
        assertEquals(turn.hashCode(), RigidTransform.ofMatrix(turn.toMatrix()).hashCode());
    }

    @Test
    void matrixIsRowMajor() {
        // By hand: a quarter turn about z and a move by (5, 6, 7)
        double[] matrix = {0, -1, 0, 5, 1, 0, 0, 6, 0, 0, 1, 7, 0, 0, 0, 1};
        RigidTransform transform = RigidTransform.ofMatrix(matrix);

        assertEquals(new PatientPoint(3, 7, 10), transform.apply(new PatientPoint(1, 2, 3)));
        assertEquals(new PatientVector(5, 6, 7), transform.translationMm());
    }

    @Test
    void refusesWhatIsNoRigidMatrix() {
        double[] mirrored = {-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};
        double[] scaled = {1.001, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};
        double[] projective = {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0.1, 1};
        for (double[] matrix : new double[][] {mirrored, scaled, projective, new double[9]}) {
            assertThrows(IllegalArgumentException.class, () -> RigidTransform.ofMatrix(matrix));
        }
    }

    @Test
    void refusesAMatrixWithNotANumber() {
        double[] matrix = {Double.NaN, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};

        assertThrows(IllegalArgumentException.class, () -> RigidTransform.ofMatrix(matrix));
    }

    @Test
    void writesItselfWithADecimalPoint() {
        assertTrue(RigidTransform.IDENTITY.toString().contains("0.000°"));
    }
}
