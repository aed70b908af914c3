package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class NormalEquationsTest {

    private static final double EXACT = 1e-12;

    @Test
    void fitsALine() {
        NormalEquations line = new NormalEquations(2);
        line.add(new double[] {1, 0}, 1, 1);
        line.add(new double[] {1, 1}, 3, 1);
        line.add(new double[] {1, 2}, 5, 1);
        double[] fit = new double[2];
        assertTrue(line.solve(2, fit));
        // By hand: 1 + 2 x goes through all three.
        assertEquals(1, fit[0], EXACT);
        // By hand: as above.
        assertEquals(2, fit[1], EXACT);
        // By hand: variance of a slope with unit weights, 1 / Σ(x − 1)² = 1/2.
        assertEquals(0.5, line.variance(2, 1), EXACT);
    }

    @Test
    void priorCountsAsAnObservation() {
        NormalEquations one = new NormalEquations(1);
        one.add(new double[] {1}, 10, 1);
        one.addPrior(0, 4, 2);
        double[] mean = new double[1];
        assertTrue(one.solve(1, mean));
        // By hand: (10 + 2 · 4) / 3.
        assertEquals(6, mean[0], EXACT);
    }

    @Test
    void unknownsThatCannotBeToldApartAreRefused() {
        NormalEquations twins = new NormalEquations(2);
        twins.add(new double[] {1, 1}, 1, 1);
        twins.add(new double[] {2, 2}, 2, 1);
        assertFalse(twins.solve(2, new double[2]));
        assertTrue(Double.isNaN(twins.variance(2, 0)));
    }
}
