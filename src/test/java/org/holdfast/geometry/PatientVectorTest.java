package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PatientVectorTest {

    private static final double ROUNDING = 1e-12;

    @Test
    void axesAreRightHanded() {
        assertEquals(PatientVector.CRANIAL, PatientVector.LEFT.cross(PatientVector.POSTERIOR));
    }

    @Test
    void crossAndDotByHand() {
        PatientVector a = new PatientVector(1, 2, 3);
        PatientVector b = new PatientVector(4, -5, 6);

        // By hand: 4 − 10 + 18; (2·6 + 3·5, 3·4 − 1·6, −5 − 8)
        assertEquals(12, a.dot(b));
        assertEquals(new PatientVector(27, 6, -13), a.cross(b));
        assertEquals(new PatientVector(5, -3, 9), a.plus(b));
        assertEquals(new PatientVector(-3, 7, -3), a.minus(b));
        assertEquals(new PatientVector(2, 4, 6), a.times(2));
    }

    @Test
    void unitOfTwoThreeSix() {
        // By hand: the length of (2, 3, 6) is 7
        PatientVector u = new PatientVector(2, 3, 6).unit();

        assertEquals(7, new PatientVector(2, 3, 6).norm(), ROUNDING);
        assertEquals(2.0 / 7, u.x(), ROUNDING);
        assertEquals(6.0 / 7, u.z(), ROUNDING);
    }

    @Test
    void aZeroVectorHasNoDirection() {
        assertThrows(IllegalArgumentException.class, () -> new PatientVector(0, 0, 1e-13).unit());
    }

    @Test
    void smallAnglesKeepTheirDigits() {
        double angle = 1e-7;
        PatientVector turned = new PatientVector(Math.cos(angle), Math.sin(angle), 0);

        // Phantom: the angle itself; an arc cosine would give 0 here
        assertEquals(Math.toDegrees(angle), PatientVector.LEFT.angleDegTo(turned), 1e-15);
        assertEquals(180, PatientVector.LEFT.angleDegTo(PatientVector.LEFT.times(-3)), ROUNDING);
        assertEquals(90, PatientVector.LEFT.angleDegTo(PatientVector.CRANIAL), ROUNDING);
    }

    @Test
    void perpendicularIsUnitAndAtRightAngles() {
        Random random = new Random(3);
        for (int n = 0; n < 500; n++) {
            PatientVector v = new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian());

            PatientVector p = v.anyPerpendicular();

            assertEquals(1, p.norm(), ROUNDING);
            assertEquals(0, p.dot(v), 1e-12 * v.norm() + ROUNDING);
            assertEquals(p, v.anyPerpendicular());
        }
    }

    @Test
    void refusesWhatIsNotFinite() {
        assertThrows(IllegalArgumentException.class, () -> new PatientVector(Double.NaN, 0, 0));
        assertThrows(IllegalArgumentException.class, () -> new PatientPoint(0, Double.POSITIVE_INFINITY, 0));
    }
}
