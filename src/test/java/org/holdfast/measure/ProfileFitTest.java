package org.holdfast.measure;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;

class ProfileFitTest {
    static final double[] GAPS = {0, 0.3, 0.5, 0.6, 0.8, 1.0, 1.5};

    @Test
    void explore() {
        for (double front : new double[] {0.4, 0.8, 1.4}) {
            for (double plateau : new double[] {2100, 7500}) {
                for (double gap : GAPS) {
                    series(gap, plateau, front);
                }
            }
        }
    }

    void series(double gap, double plateau, double front) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(7);
        var normal = ZigguratSampler.NormalizedGaussian.of(random);
        double sigma = 0.42;
        ProfileKnown known = ProfileKnown.plane(sigma, 20, 25)
                .withSigma(sigma, 0.05 * sigma)
                .with(new ProfileKnown.Prior(20, 20), ProfileKnown.Prior.NONE, ProfileKnown.Prior.NONE)
                .withErrors(1, 0.01);
        ProfileFit fit = new ProfileFit(known);
        int n = 60;
        double[] t = new double[n];
        double[] hu = new double[n];
        double[] w = new double[n];
        double sum = 0, sq = 0, se = 0, inside = 0, mis = 0, fr = 0;
        int runs = 200;
        long start = System.nanoTime();
        for (int run = 0; run < runs; run++) {
            double s = sigma * (1 + 0.05 * normal.sample());
            ProfileModel m = new ProfileModel(plateau, 20 + 10 * normal.sample(), 700, front, 260, s);
            double off = random.nextDouble() - 0.5;
            for (int k = 0; k < n; k++) {
                t[k] = -2.5 + k * 0.15;
                w[k] = 2.5;
                hu[k] = m.hu(t[k] - off, gap) + 25 / Math.sqrt(2.5) * normal.sample();
            }
            FittedProfile f = fit.fit(t, hu, w, n).orElseThrow();
            if (f.gapSeMm() > 5) {
                for (FittedProfile.Front q : f.fronts()) System.out.println(q);
                System.out.println(java.util.Arrays.toString(f.weights()));
            }
            sum += f.gapMm();
            sq += f.gapMm() * f.gapMm();
            se += f.gapSeMm();
            mis += f.misfit();
            fr += f.frontMm();
            inside += Math.abs(f.gapMm() - gap) <= 1.96 * f.gapSeMm() ? 1 : 0;
        }
        double ms = (System.nanoTime() - start) / 1e6 / runs;
        double mean = sum / runs;
        System.out.printf(
                "front %.1f plateau %.0f gap %.2f: mean %.3f sd %.3f se %.3f in %.3f misfit %.2f c %.2f  %.3f ms%n",
                front,
                plateau,
                gap,
                mean,
                Math.sqrt(sq / runs - mean * mean),
                se / runs,
                inside / runs,
                mis / runs,
                fr / runs,
                ms);
        org.junit.jupiter.api.Assertions.assertFalse(Double.isNaN(mean));
    }
}
