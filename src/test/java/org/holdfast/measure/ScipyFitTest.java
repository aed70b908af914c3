package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The fit against scipy's least squares on the same profiles, with the same model, loss, priors and bounds. */
@Tag("outside-tool")
class ScipyFitTest {

    private static final Path PYTHON = Path.of("/usr/bin/python3");
    private static final int COUNT = 70;
    private static final double SIGMA = 0.42;
    private static final double NOISE_HU = 25;
    private static final double GAP_TOLERANCE_MM = 1e-3;
    /** A cost so little above the other's is the same minimum, found to each solver's stopping rule. */
    private static final double COST_TOLERANCE = 1e-4;

    private static final String SCRIPT =
            """
            import sys, numpy
            from scipy.optimize import least_squares
            from scipy.stats import norm
            rows = [list(map(float, l.split())) for l in open(sys.argv[1] + '/profiles')]
            n = %d
            lower = numpy.array([-1.6, 0, -200, 0, -200, -200, 0.6 * 0.42, 0.15])
            upper = numpy.array([1.6, 8, 40000, 1800, 1500, 200, 1.6 * 0.42, 2])
            out = open(sys.argv[1] + '/fits', 'w')
            for row in rows:
                start, t, hu = numpy.array(row[:8]), numpy.array(row[8:8 + n]), numpy.array(row[8 + n:])
                def residuals(x):
                    e, g, p, f, d, w, s, c = x
                    step = lambda b: norm.cdf((t - b) / s)
                    model = p + (w - p) * step(e) + (d + f - w) * step(e + g) - f * step(e + g + c)
                    r = (model - hu) / 25.0
                    soft = numpy.sign(r) * numpy.sqrt(18 * (numpy.sqrt(1 + r * r / 9) - 1))
                    prior = [(w - 20) / 20.0, (s - 0.42) / 0.0084, (c - 0.8) / 0.15]
                    return numpy.concatenate([soft, prior])
                best = None
                for gap in (0.05, 0.4, 0.8, 1.5, 2.5):
                    x = numpy.clip(start + [0, gap - start[1], 0, 0, 0, 0, 0, 0], lower + 1e-6, upper - 1e-6)
                    fit = least_squares(residuals, x, bounds=(lower, upper), xtol=1e-12, ftol=1e-12, gtol=1e-12,
                                        x_scale=[0.1, 0.1, 100, 100, 100, 10, 0.01, 0.1])
                    if best is None or fit.cost < best.cost:
                        best = fit
                out.write('%%.12g %%.12g\\n' %% (best.cost, best.x[1]))
            """;

    @TempDir
    private Path folder;

    @BeforeEach
    void requireScipy() throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(PYTHON), "skipped: no /usr/bin/python3");
        assumeTrue(run("import scipy.optimize", "") == 0, "skipped: /usr/bin/python3 has no scipy");
    }

    @Test
    void findsTheMinimumThatScipyFinds() throws IOException, InterruptedException {
        double[] gaps = {0, 0.2, 0.4, 0.6, 0.8, 1, 1.3, 1.7, 2.2, 3};
        StringBuilder lines = new StringBuilder();
        FittedProfile.Front[] own = new FittedProfile.Front[gaps.length];
        for (int n = 0; n < gaps.length; n++) {
            double[][] profile = profile(gaps[n], 0.05 * n - 0.2, 900 + n);
            own[n] = fit(profile);
            double[] start = {0.05 * n - 0.2, gaps[n], 2100, 400, 260, 20, SIGMA, 0.8};
            for (double[] numbers : List.of(start, profile[0], profile[1])) {
                for (double number : numbers) {
                    lines.append(String.format(Locale.ROOT, "%.12g ", number));
                }
            }
            lines.append('\n');
        }
        Files.writeString(folder.resolve("profiles"), lines);
        assertEquals(0, run(String.format(Locale.ROOT, SCRIPT, COUNT), folder.toString()));

        List<String> fits = Files.readAllLines(folder.resolve("fits"));
        for (int n = 0; n < gaps.length; n++) {
            String[] numbers = fits.get(n).split(" ");
            // Computed: scipy.optimize.least_squares, see the script
            double cost = Double.parseDouble(numbers[0]);
            double gap = Double.parseDouble(numbers[1]);
            boolean isSameGap = Math.abs(own[n].gapMm() - gap) <= GAP_TOLERANCE_MM;
            boolean isNoWorse = own[n].cost() <= cost * (1 + COST_TOLERANCE);
            assertTrue(isSameGap || isNoWorse, "gap " + gaps[n] + ": " + own[n] + " against " + fits.get(n));
        }
    }

    private static FittedProfile.Front fit(double[][] profile) {
        ProfileKnown known = ProfileKnown.plane(SIGMA, 20, NOISE_HU)
                .withSigma(SIGMA, 0.02 * SIGMA)
                .with(new ProfileKnown.Prior(20, 20), ProfileKnown.Prior.NONE, ProfileKnown.Prior.NONE);
        return new ProfileFit(known)
                .fit(profile[0], profile[1], null, COUNT)
                .orElseThrow()
                .fronts()[1];
    }

    private static double[][] profile(double gapMm, double edgeMm, long seed) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(random);
        ProfileModel model = new ProfileModel(2100, 25, 650, 0.9, 240, SIGMA);
        double[][] profile = new double[2][COUNT];
        for (int n = 0; n < COUNT; n++) {
            profile[0][n] = -2.4 + 0.13 * n;
            profile[1][n] = model.hu(profile[0][n] - edgeMm, gapMm) + NOISE_HU * normal.sample();
        }
        return profile;
    }

    private static int run(String script, String argument) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(PYTHON.toString(), "-c", script, argument)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        assumeTrue(process.waitFor(240, TimeUnit.SECONDS), "skipped: python3 did not answer within 240 s");
        return process.exitValue();
    }
}
