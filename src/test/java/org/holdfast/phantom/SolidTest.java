package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SolidTest {

    private static final PatientVector U = new PatientVector(0.6, 0.8, 0);
    private static final PatientVector V = new PatientVector(-0.8, 0.6, 0);
    private static final PatientVector W = PatientVector.CRANIAL;
    private static final double ROUNDING_MM = 1e-6;

    static Stream<Solid> solids() {
        PatientPoint c = new PatientPoint(0.5, -0.3, 0.2);
        Box box = new Box(c, U, V, W, 3, 2, 1.5);
        FaceFrame face = new FaceFrame(c, U, V, W, 4, 4);
        return Stream.of(
                new HalfSpace(c, new PatientVector(1, 2, 3)),
                new Slab(c, new PatientVector(1, -2, 1), 1.2),
                box,
                new CappedCylinder(c.along(U, -3), c.along(U, 2), 1.4),
                new Sphere(c, 2.2),
                new RoundRod(List.of(c.along(U, -3), c, c.along(W, 3)), 0.9),
                new EllipseCylinder(c, U, V, W, 4, 2, 2.5),
                new EllipseCylinder(c, U, V, W, 2, 4, 2.5),
                SteppedFront.over(face, GapPattern.stripes(4, 4, 0, 2, 1, 3), g -> g),
                box.and(new Sphere(c, 2.2)),
                box.or(new Sphere(c, 2.2)),
                box.without(new Sphere(c, 1.2)),
                new Complement(box),
                box.moved(RigidTransform.rotation(new PatientVector(1, 1, 0), 30, PatientPoint.ORIGIN)));
    }

    @ParameterizedTest
    @MethodSource("solids")
    void distanceIsNeverLongerThanTheWayToTheOtherSide(Solid solid) {
        // Phantom: no point nearer than |d| may lie on the other side of the surface.
        Random random = new Random(3);
        for (int n = 0; n < 20_000; n++) {
            PatientPoint p = point(random, 6);
            double d = solid.signedDistanceMm(p);
            PatientPoint q = p.plus(direction(random).times(Math.abs(d) * random.nextDouble() - ROUNDING_MM));
            if (Math.abs(d) > 2 * ROUNDING_MM) {
                assertEquals(solid.contains(p), solid.contains(q), () -> solid + " at " + p + " and " + q);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("solids")
    void insideShareIsTheGaussianMeanOfInside(Solid solid) {
        // Phantom: the share of Gaussian draws that lie inside, at points near the surface.
        Random random = new Random(11);
        double blur = 0.09;
        int draws = 4000;
        int tested = 0;
        while (tested < 12) {
            PatientPoint p = point(random, 5);
            double share = solid.insideShare(p.x(), p.y(), p.z(), blur, 0);
            if (share < 0.02 || share > 0.98) {
                continue;
            }
            int inside = 0;
            for (int n = 0; n < draws; n++) {
                PatientVector d =
                        new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian());
                inside += solid.contains(p.plus(d.times(blur))) ? 1 : 0;
            }
            // Four standard errors of a share at n = 4000 are 0.032; the product rule of combined solids may be off by
            // up to 0.1 within blur of an edge that is not at right angles.
            double allowed = solid instanceof Intersection || solid instanceof Union ? 0.13 : 0.04;
            assertEquals(share, (double) inside / draws, allowed, () -> solid + " at " + p);
            tested++;
        }
    }

    @Test
    void ellipseDistanceEqualsSearchOverItsPoints() {
        Random random = new Random(7);
        for (int n = 0; n < 300; n++) {
            double x = 60 * random.nextDouble() - 30;
            double y = 60 * random.nextDouble() - 30;
            double best = Double.POSITIVE_INFINITY;
            for (int m = 0; m < 40_000; m++) {
                double angle = 2 * Math.PI * m / 40_000;
                best = Math.min(best, Math.hypot(x - 22 * Math.cos(angle), y - 15 * Math.sin(angle)));
            }
            boolean inside = x * x / (22 * 22) + y * y / (15 * 15) < 1;
            // Phantom: least distance to 40,000 points of the ellipse, 3.5e-3 mm apart: off by under 1e-5 mm beyond 0.2
            // mm.
            double searchErrorMm = 2e-3;
            assertEquals(inside ? -best : best, EllipseCylinder.ellipseDistance(x, y, 22, 15, 5), searchErrorMm);
        }
    }

    @Test
    void insetShrinks() {
        Sphere ball = new Sphere(PatientPoint.ORIGIN, 3);
        Sphere smaller = new Sphere(PatientPoint.ORIGIN, 2.4);
        double share = ball.insideShare(2.35, 0.1, 0, 0.1, 0.6);
        assertEquals(smaller.insideShare(2.35, 0.1, 0, 0.1, 0), share, 1e-12);
        assertTrue(share > 0.3 && share < 0.7, "near the inset surface, got " + share);
    }

    @Test
    void refusesImpossibleShapes() {
        PatientPoint o = PatientPoint.ORIGIN;
        assertThrows(IllegalArgumentException.class, () -> new Sphere(o, 0));
        assertThrows(IllegalArgumentException.class, () -> new Sphere(o, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new CappedCylinder(o, o, 1));
        assertThrows(IllegalArgumentException.class, () -> new RoundRod(List.of(o), 1));
        assertThrows(IllegalArgumentException.class, () -> new Box(o, U, U, W, 1, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> new Slab(o, U, -1));
    }

    private static PatientPoint point(Random random, double half) {
        return new PatientPoint(
                half * (2 * random.nextDouble() - 1),
                half * (2 * random.nextDouble() - 1),
                half * (2 * random.nextDouble() - 1));
    }

    private static PatientVector direction(Random random) {
        return new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian()).unit();
    }
}
