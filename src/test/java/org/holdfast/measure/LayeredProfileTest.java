package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class LayeredProfileTest {

    private static final double[] X = {0.13, 0.45, 2100, 350, 220, 25, 0.42, 0.7};
    private static final double STEP = 1e-4;
    /** Central differences of second order at this step; HU per mm up to 10⁵, table error 1e-9 · HU / step. */
    private static final double SHARE = 2e-4;

    private static final double LEAST = 0.05;

    @Test
    void isTheProfileModelWithoutBoxLayerAndBend() {
        LayeredProfile layered = new LayeredProfile(ProfileKnown.plane(0.42, 25, 20));
        ProfileModel model = new ProfileModel(2100, 25, 570, 0.7, 220, 0.42);
        for (double t = -3; t < 6; t += 0.137) {
            // Computed: ProfileModel.hu, which uses commons-numbers' Erfc; 1e-9 of 2100 HU a step
            assertEquals(model.hu(t - 0.13, 0.45), layered.huAt(X, t), 1e-5);
        }
    }

    @Test
    void derivativesAreThoseOfTheModel() {
        ProfileKnown known = ProfileKnown.plane(0.42, 25, 20)
                .layered(1.2, 7400)
                .withBox(0.0008)
                .onCylinder(2.75, 0.4)
                .withErrors(1, 0.01);
        LayeredProfile layered = new LayeredProfile(known);
        for (double t = -2; t < 4; t += 0.21) {
            double[] derivatives = layered.derivativesAt(X, t).clone();
            for (int n = 0; n < LayeredProfile.SIZE; n++) {
                double[] up = X.clone();
                double[] down = X.clone();
                double step = STEP * Math.max(1, Math.abs(X[n]) / 100);
                up[n] += step;
                down[n] -= step;
                double difference = (layered.huAt(up, t) - layered.huAt(down, t)) / (2 * step);
                // Computed: central difference of the model itself
                assertEquals(difference, derivatives[n], LEAST + SHARE * Math.abs(difference), "parameter " + n);
            }
        }
    }

    @Test
    void endsAtTheCeilingWithoutSlope() {
        LayeredProfile layered =
                new LayeredProfile(ProfileKnown.plane(0.42, 25, 20).clippedAt(1500));
        // By hand: at t = −2 the implant reads 2100 HU, over the ceiling.
        assertEquals(1500, layered.huAt(X, -2), 0);
        for (double derivative : layered.derivativesAt(X, -2)) {
            // By hand: a clipped value does not move.
            assertEquals(0, derivative, 0);
        }
    }
}
