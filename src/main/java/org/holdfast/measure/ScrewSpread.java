package org.holdfast.measure;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/**
 * The point spread as the screw's own edge shows it, all round and all along: both standard deviations are varied and the
 * ones for which the zones fit best are taken, together with what was known of them before. Zone and spread are thus
 * fitted in one, and what is left open of the spread goes into the widths' standard errors.
 *
 * @param estimate refined point spread
 * @param widthSeMm standard error that the spread's leaves in a width
 */
record ScrewSpread(PointSpreadEstimate estimate, double widthSeMm) {

    /** How well a point spread is known before, as a share of it. */
    private static final double PRIOR_SD = 0.06;
    /** The same for a default that was not measured (no source: two kernels of one class differ by so much). */
    private static final double DEFAULT_PRIOR_SD = 0.2;

    private static final double[] STEPS = {0.06, 0.04, 0.02};
    private static final int STRETCH = 2 * ScrewRings.STATION_REACH + 1;
    private static final double MOST = 0.3;
    /** The model of the blur is no more exact than this, as a share of σ. */
    private static final double FLOOR_SE = 0.01;

    /** Fits of one pair of factors, one a stretch and group of sectors; null where nothing can be said. */
    private record Tried(ZoneFit.Zone[] zones) {

        /** Reduced χ² of each fit where above 1, else 1; NaN where nothing can be said. */
        double[] scatter() {
            return Arrays.stream(zones)
                    .mapToDouble(z -> z == null ? Double.NaN : Math.max(1, z.reduced()))
                    .toArray();
        }

        /** Summed misfit in units of the scatter that the middle of the trials has. */
        double misfit(double[] unit) {
            double sum = 0;
            for (int n = 0; n < zones.length; n++) {
                sum += Double.isNaN(unit[n]) || zones[n] == null ? 0 : zones[n].misfit() / unit[n];
            }
            return sum;
        }

        double[] widths() {
            return Arrays.stream(zones)
                    .mapToDouble(z -> z == null ? Double.NaN : z.widthMm())
                    .toArray();
        }
    }

    /** Finds the point spread of a screw in an exam. */
    static ScrewSpread of(
            ScrewInExam screw,
            VolumeGrid grid,
            PointSpreadEstimate given,
            double nominalHu,
            int[][] depth,
            boolean[] host,
            MeasurementSettings settings) {
        double sd =
                given.source() == PointSpreadEstimate.Source.KERNEL_AND_THICKNESS_DEFAULT ? DEFAULT_PRIOR_SD : PRIOR_SD;
        Trials trials = new Trials(screw, grid, given, nominalHu, depth, host, settings);
        double a = 1;
        double b = 1;
        double[] gradient = new double[2];
        double[][] variance = new double[2][2];
        double[][] byFactor = new double[2][];
        for (double h : STEPS) {
            Tried middle = trials.tried(a, b);
            Tried a1 = trials.tried(a + h, b);
            Tried a0 = trials.tried(a - h, b);
            Tried b1 = trials.tried(a, b + h);
            Tried b0 = trials.tried(a, b - h);
            Tried both = trials.tried(a + h, b + h);
            double prior = 1 / (sd * sd);
            double[] unit = middle.scatter();
            double m = middle.misfit(unit);
            double ma1 = a1.misfit(unit);
            double ma0 = a0.misfit(unit);
            double mb1 = b1.misfit(unit);
            double mb0 = b0.misfit(unit);
            gradient[0] = (ma1 - ma0) / (2 * h) + 2 * prior * (a - 1);
            gradient[1] = (mb1 - mb0) / (2 * h) + 2 * prior * (b - 1);
            double aa = Math.max(0, (ma1 - 2 * m + ma0) / (h * h)) + 2 * prior;
            double bb = Math.max(0, (mb1 - 2 * m + mb0) / (h * h)) + 2 * prior;
            double ab = (both.misfit(unit) - ma1 - mb1 + m) / (h * h);
            double det = aa * bb - ab * ab;
            if (det < 1e-3 * aa * bb) {
                ab = 0;
                det = aa * bb;
            }
            double da = -(bb * gradient[0] - ab * gradient[1]) / det;
            double db = -(aa * gradient[1] - ab * gradient[0]) / det;
            a = limited(a + Math.max(-2 * h, Math.min(2 * h, da)));
            b = limited(b + Math.max(-2 * h, Math.min(2 * h, db)));
            // −2 log likelihood has twice the inverse covariance for its second derivatives.
            variance = new double[][] {{2 * bb / det, -2 * ab / det}, {-2 * ab / det, 2 * aa / det}};
            byFactor[0] = slopes(a1.widths(), a0.widths(), 2 * h);
            byFactor[1] = slopes(b1.widths(), b0.widths(), 2 * h);
        }
        return new ScrewSpread(scaled(given, a, b), widthSe(byFactor, variance));
    }

    private static double widthSe(double[][] byFactor, double[][] variance) {
        double floor = FLOOR_SE * FLOOR_SE;
        double sum = 0;
        int count = 0;
        for (int n = 0; n < byFactor[0].length; n++) {
            double x = byFactor[0][n];
            double y = byFactor[1][n];
            if (!Double.isNaN(x) && !Double.isNaN(y)) {
                sum += (variance[0][0] + floor) * x * x + 2 * variance[0][1] * x * y + (variance[1][1] + floor) * y * y;
                count++;
            }
        }
        return count == 0 ? 0 : Math.sqrt(Math.max(0, sum / count));
    }

    private static double[] slopes(double[] up, double[] down, double span) {
        return IntStream.range(0, up.length)
                .mapToDouble(n -> (up[n] - down[n]) / span)
                .toArray();
    }

    private static double limited(double factor) {
        return Math.max(1 - MOST, Math.min(1 + MOST, factor));
    }

    private static PointSpreadEstimate scaled(PointSpreadEstimate given, double a, double b) {
        return new PointSpreadEstimate(given.sigmaInPlaneMm() * a, given.sigmaAlongTableMm() * b, given.source());
    }

    /** What all trials share. */
    private record Trials(
            ScrewInExam screw,
            VolumeGrid grid,
            PointSpreadEstimate given,
            double nominalHu,
            int[][] depth,
            boolean[] host,
            MeasurementSettings settings) {

        Tried tried(double a, double b) {
            ScrewRings rings = new ScrewRings(screw, grid, scaled(given, a, b), nominalHu, depth, settings);
            boolean[][] groups = groups(screw.axis(), grid.normal());
            int stretches = Math.max(1, screw.slabs() / STRETCH);
            return new Tried(IntStream.range(0, 2 * stretches)
                    .parallel()
                    .mapToObj(n -> fit(rings, n / 2 * STRETCH, groups[n % 2]))
                    .toArray(ZoneFit.Zone[]::new));
        }

        private ZoneFit.Zone fit(ScrewRings rings, int from, boolean[] sectors) {
            int to = Math.min(screw.slabs(), from + STRETCH);
            for (int n = from; n < to; n++) {
                if (!host[n]) {
                    return null;
                }
            }
            return rings.fitWithoutError(from, to, sectors);
        }
    }

    /** Sectors that look along the table, and those that do not. */
    private static boolean[][] groups(ScrewAxis axis, PatientVector table) {
        double towards = Math.atan2(table.dot(axis.quarter()), table.dot(axis.zero()));
        boolean[][] groups = new boolean[2][ScrewVoxels.SECTORS];
        for (int n = 0; n < ScrewVoxels.SECTORS; n++) {
            double middle = 2 * Math.PI * (n + 0.5) / ScrewVoxels.SECTORS;
            groups[Math.abs(Math.cos(middle - towards)) > Math.sqrt(0.5) ? 1 : 0][n] = true;
        }
        return groups;
    }
}
