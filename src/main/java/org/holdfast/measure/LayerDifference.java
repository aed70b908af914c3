package org.holdfast.measure;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;

/**
 * Change of HU in a porous layer under some samples: the mean difference of two exams' profiles, without what comes from
 * elsewhere. A pose that is off by d moves the steep borders of the layer, d·HU′ with hundreds of HU a millimetre; blur lets
 * a change outside the implant reach into the layer. Both have their own course along the normal, so that they are
 * fitted beside the layer's own change and taken off.
 *
 * @param changeHu change of HU in the layer
 * @param shiftMm shift of the implant along the normal that was taken off, mm
 * @param outsideHu change right outside the implant whose reach into the layer was taken off
 */
record LayerDifference(double changeHu, double shiftMm, double outsideHu) {

    /** So far beyond the layer's inner border the profile is used, mm. */
    private static final double INTO_CORE_MM = 1.5;
    /** And so far outside the implant, mm: enough to see a change there, too little to see how it goes on. */
    private static final double OUTSIDE_MM = 0.3;

    private static final double STEP_MM = 0.1;
    /** A shift is expected to stay within so much, mm, against residuals of so many HU; binds where no border is seen. */
    private static final double EXPECTED_SHIFT_MM = 0.05;

    private static final double RESIDUAL_HU = 3;
    /** HU closer to the ceiling than this are bent by it: four times a usual noise of 25 HU. */
    private static final double UNDER_CEILING_HU = 100;

    private static final int MIN_SAMPLES = 10;

    /** Means over the samples at one t. */
    private record Means(double[] tMm, double[] before, double[] now, boolean[] usable) {}

    /**
     * The change under some samples; null where fewer than ten show the layer, or the scale cuts it off.
     *
     * @param samples indices of the samples
     * @param depthMm depth of the layer
     * @param marginMm distance kept from both borders of the layer
     * @param drift drift of the HU scale, taken off first
     * @param blurFactor the blur along the normal is taken as so many times what the exam's point spread says
     */
    static LayerDifference of(
            ComparedFace reference,
            ComparedFace later,
            int[] samples,
            double depthMm,
            double marginMm,
            HuDrift drift,
            double blurFactor) {
        int[] seen = Arrays.stream(samples)
                .filter(n -> !Double.isNaN(later.meanHu(n, -depthMm - INTO_CORE_MM - STEP_MM, OUTSIDE_MM + STEP_MM)
                        + reference.meanHu(n, -depthMm - INTO_CORE_MM - STEP_MM, OUTSIDE_MM + STEP_MM)))
                .toArray();
        if (seen.length < MIN_SAMPLES) {
            return null;
        }
        double sigma = blurFactor
                * Arrays.stream(seen).mapToDouble(later::sigmaMm).average().orElseThrow();
        Means means = means(reference, later, seen, depthMm, drift);
        double[] fit = fit(means, depthMm, sigma);
        double sum = 0;
        double share = 0;
        for (int at = 1; at < means.tMm.length - 1; at++) {
            double t = means.tMm[at];
            if (t >= -depthMm + marginMm - 1e-9 && t <= -marginMm + 1e-9) {
                if (!means.usable[at]) {
                    return null;
                }
                sum += means.now[at]
                        - means.before[at]
                        - fit[1] * shiftCourse(means, at)
                        - fit[2] * outside(t, sigma)
                        - fit[3] * outsideSlope(t, sigma)
                        - fit[4] * outside(t - sigma, sigma);
                share += layer(t, depthMm, sigma);
            }
        }
        return share > 0 ? new LayerDifference(sum / share, fit[1], fit[2]) : null;
    }

    private static Means means(
            ComparedFace reference, ComparedFace later, int[] samples, double depthMm, HuDrift drift) {
        int steps = (int) Math.round((depthMm + INTO_CORE_MM + OUTSIDE_MM) / STEP_MM) + 3;
        double[] t = new double[steps];
        double[] before = new double[steps];
        double[] now = new double[steps];
        boolean[] usable = new boolean[steps];
        for (int at = 0; at < steps; at++) {
            t[at] = -depthMm - INTO_CORE_MM + (at - 1) * STEP_MM;
            for (int n : samples) {
                before[at] += reference.profiles()[n].at(reference.edgeMm()[n] + t[at]) / samples.length;
                now[at] += later.profiles()[n].at(later.edgeMm()[n] + t[at]) / samples.length;
            }
            // No ceiling is NaN, under which everything is usable.
            usable[at] = !(before[at] > reference.ceilingHu() - UNDER_CEILING_HU)
                    && !(now[at] > later.ceilingHu() - UNDER_CEILING_HU);
            now[at] = drift.corrected(now[at]);
        }
        return new Means(t, before, now, usable);
    }

    /** Layer's change, shift and outside change by least squares; the shift is held near 0 where nothing shows it. */
    private static double[] fit(Means means, double depthMm, double sigma) {
        int rows = means.tMm.length - 1;
        double[][] design = new double[rows][5];
        double[] difference = new double[rows];
        for (int at = 1; at < means.tMm.length - 1; at++) {
            if (means.usable[at - 1] && means.usable[at] && means.usable[at + 1]) {
                double t = means.tMm[at];
                design[at][0] = layer(t, depthMm, sigma);
                design[at][1] = shiftCourse(means, at);
                design[at][2] = outside(t, sigma);
                design[at][3] = outsideSlope(t, sigma);
                design[at][4] = outside(t - sigma, sigma);
                difference[at] = means.now[at] - means.before[at];
            }
        }
        design[0][1] = RESIDUAL_HU / EXPECTED_SHIFT_MM;
        return new QRDecomposition(new Array2DRowRealMatrix(design, false))
                .getSolver()
                .solve(new ArrayRealVector(difference, false))
                .toArray();
    }

    /** What a shift of 1 mm outwards does, HU: minus the slope, mean of both exams. */
    private static double shiftCourse(Means means, int at) {
        double slope = means.before[at + 1] - means.before[at - 1] + means.now[at + 1] - means.now[at - 1];
        return -0.25 * slope / STEP_MM;
    }

    private static double layer(double t, double depthMm, double sigma) {
        return ProfileModel.normalCdf((t + depthMm) / sigma) - ProfileModel.normalCdf(t / sigma);
    }

    private static double outside(double t, double sigma) {
        return ProfileModel.normalCdf(t / sigma);
    }

    /** What a change outside gains if its border lies 1 mm nearer to the layer: front and blur move the edge that is kept. */
    private static double outsideSlope(double t, double sigma) {
        return Math.exp(-0.5 * t * t / (sigma * sigma)) / (sigma * Math.sqrt(2 * Math.PI));
    }
}
