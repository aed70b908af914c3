package org.holdfast.measure;

/**
 * The width of the lucent zone round a screw from the rings of a stretch or sector: metal of radius R | fluid of width w |
 * front of the bone of thickness c | deeper bone, round the axis, blurred as {@link BlurredDiscs} says.
 *
 * <p>Unknown: edge and width (searched), and HU of metal, fluid, bone, its slope with depth and the front's excess
 * (linear, solved for each edge and width; the front is never darker than the deeper bone). Metal and fluid carry what is
 * known of them as a prior. Thickness and HU of the front cannot be told apart, so that 0.4, 0.8 and 1.2 mm are each
 * fitted and weighted by fit. Standard error: from the Jacobian, times the square root of the reduced χ² where that is
 * above 1, and the spread over the thicknesses. Not thread-safe.
 */
final class ZoneFit {

    /** Widest zone that is looked for, mm. */
    static final double WIDEST_MM = 4.5;
    /** The metal's edge is looked for so far from the laid-out radius, mm. */
    static final double EDGE_MM = 0.9;

    private static final double[] FRONTS_MM = {0.4, 0.8, 1.2};
    private static final double COARSE_EDGE_MM = 0.15;
    private static final double COARSE_WIDTH_MM = 0.25;
    private static final double[] FINE_MM = {0.06, 0.02, 0.006};
    private static final int MOVES = 12;
    private static final double DERIVATIVE_MM = 0.01;
    private static final int MIN_RINGS = 25;

    private static final double FLUID_SD_HU = 20;
    private static final double SLOPE_SD_HU_PER_MM = 15;
    private static final double EXCESS_SD_HU = 500;
    /** Bone's slope counts from so far outside the screw, mm. */
    private static final double SLOPE_AT_MM = 3;
    /** The model of the metal's flank is taken to be so exact, share of the metal's contribution. */
    private static final double FLANK_ERROR = 0.01;

    private static final int METAL = 0;
    private static final int FLUID = 1;
    private static final int BONE = 2;
    private static final int SLOPE = 3;
    private static final int EXCESS = 4;
    private static final int LINEAR = 5;

    /**
     * What is known before the fit.
     *
     * @param radiusMm laid-out radius of the screw
     * @param fromRadiusMm first radius of the table of discs
     * @param noiseSdHu standard deviation of a voxel's noise
     * @param metalHu HU of the metal, as read or nominal
     * @param metalSdHu how well that is known
     * @param fluidHu HU of fluid and scar
     */
    record Known(
            double radiusMm, double fromRadiusMm, double noiseSdHu, double metalHu, double metalSdHu, double fluidHu) {}

    /**
     * A fitted zone.
     *
     * @param widthMm width of the zone
     * @param seMm standard error of the width, without that of the point spread
     * @param edgeMm the metal's radius minus the laid-out one
     * @param boneHu HU of the deeper bone
     * @param frontExcessHu how much brighter the front is, over the thickness fitted best
     * @param misfit χ² with the priors' share, of the best thickness
     * @param reduced χ² over its degrees of freedom
     */
    record Zone(
            double widthMm,
            double seMm,
            double edgeMm,
            double boneHu,
            double frontExcessHu,
            double misfit,
            double reduced) {}

    private final Known known;
    private final NormalEquations equations = new NormalEquations(LINEAR);
    private final NormalEquations all = new NormalEquations(LINEAR + 2);
    private final double[] solution = new double[LINEAR];
    private final double[] row = new double[LINEAR];
    private int rings;
    private double[] y;
    private double[] weight;
    private double[] rho;
    private double[][] share;
    private double[] metal;
    private double[] beyondZone;
    private double[] beyondFront;

    ZoneFit(Known known) {
        this.known = known;
    }

    /** Fits; null where too few rings carry voxels under the scale's ceiling. */
    Zone fit(RingSums sums) {
        take(sums);
        if (rings < MIN_RINGS) {
            return null;
        }
        double[] start = coarse(FRONTS_MM[1]);
        double[][] places = new double[FRONTS_MM.length][];
        double[] misfit = new double[FRONTS_MM.length];
        int best = 0;
        for (int n = 0; n < FRONTS_MM.length; n++) {
            places[n] = fine(start, FRONTS_MM[n]);
            misfit[n] = misfit(places[n][0], places[n][1], FRONTS_MM[n]);
            best = misfit[n] < misfit[best] ? n : best;
        }
        double reduced = misfit[best] / (rings - LINEAR - 2);
        return weighted(places, misfit, best, reduced);
    }

    private Zone weighted(double[][] places, double[] misfit, int best, double reduced) {
        double scale = Math.max(1, reduced);
        double total = 0;
        double width = 0;
        double edge = 0;
        double[] variance = new double[places.length];
        double[] weights = new double[places.length];
        for (int n = 0; n < places.length; n++) {
            weights[n] = Math.exp(-0.5 * (misfit[n] - misfit[best]) / scale);
            total += weights[n];
            width += weights[n] * places[n][1];
            edge += weights[n] * places[n][0];
            variance[n] = scale * variance(places[n][0], places[n][1], FRONTS_MM[n]);
        }
        width /= total;
        double spread = 0;
        for (int n = 0; n < places.length; n++) {
            double off = places[n][1] - width;
            spread += weights[n] / total * (variance[n] + off * off);
        }
        misfit(places[best][0], places[best][1], FRONTS_MM[best]);
        return new Zone(
                width, Math.sqrt(spread), edge / total, solution[BONE], solution[EXCESS], misfit[best], reduced);
    }

    private void take(RingSums sums) {
        int capacity = sums.rings();
        y = new double[capacity];
        weight = new double[capacity];
        rho = new double[capacity];
        share = new double[capacity][];
        metal = new double[capacity];
        beyondZone = new double[capacity];
        beyondFront = new double[capacity];
        rings = 0;
        double[] flank = new double[capacity];
        for (int n = 0; n < capacity; n++) {
            if (sums.count[n] == 0 || sums.clipped[n] > 0) {
                continue;
            }
            double count = sums.count[n];
            y[rings] = sums.hu[n] / count;
            rho[rings] = sums.rho[n] / count;
            share[rings] = new double[sums.shares[n].length];
            for (int m = 0; m < share[rings].length; m++) {
                share[rings][m] = sums.shares[n][m] / count;
            }
            weight[rings] = known.noiseSdHu * known.noiseSdHu / count;
            rings++;
        }
        discs(known.radiusMm, flank);
        for (int n = 0; n < rings; n++) {
            double error = FLANK_ERROR * known.metalHu * flank[n];
            weight[n] = 1 / (weight[n] + error * error);
        }
    }

    /** Edge and width of the smallest misfit on a coarse grid. */
    private double[] coarse(double frontMm) {
        double[] best = {0, 0};
        double smallest = Double.POSITIVE_INFINITY;
        for (double edge = -EDGE_MM; edge < EDGE_MM + 1e-9; edge += COARSE_EDGE_MM) {
            for (double width = 0; width < WIDEST_MM + 1e-9; width += COARSE_WIDTH_MM) {
                double misfit = misfit(edge, width, frontMm);
                if (misfit < smallest) {
                    smallest = misfit;
                    best = new double[] {edge, width};
                }
            }
        }
        return best;
    }

    /** Steps of a shrinking lattice to the minimum of a quadratic through its points. */
    private double[] fine(double[] start, double frontMm) {
        double edge = start[0];
        double width = start[1];
        for (double step : FINE_MM) {
            for (int move = 0; move < MOVES; move++) {
                double[] next = quadraticMinimum(edge, width, step, frontMm);
                boolean settled = Math.abs(next[0] - edge) < 0.5 * step && Math.abs(next[1] - width) < 0.5 * step;
                edge = next[0];
                width = next[1];
                if (settled) {
                    break;
                }
            }
        }
        return new double[] {edge, width};
    }

    private double[] quadraticMinimum(double edge, double width, double h, double frontMm) {
        // Nearer to 0 than a step the stencil is moved off it: no zone is narrower than none.
        double w = Math.max(width, h);
        double middle = misfit(edge, w, frontMm);
        double e1 = misfit(edge + h, w, frontMm);
        double e0 = misfit(edge - h, w, frontMm);
        double w1 = misfit(edge, w + h, frontMm);
        double w0 = misfit(edge, w - h, frontMm);
        double both = misfit(edge + h, w + h, frontMm);
        double ge = (e1 - e0) / (2 * h);
        double gw = (w1 - w0) / (2 * h);
        double hee = Math.max(1e-9, (e1 - 2 * middle + e0) / (h * h));
        double hww = Math.max(1e-9, (w1 - 2 * middle + w0) / (h * h));
        double hew = (both - e1 - w1 + middle) / (h * h);
        double det = hee * hww - hew * hew;
        if (det < 1e-3 * hee * hww) {
            hew = 0;
            det = hee * hww;
        }
        double de = -(hww * ge - hew * gw) / det;
        double dw = -(hee * gw - hew * ge) / det;
        double nextWidth = w + limited(dw, 4 * h);
        double nextEdge = edge + limited(de, 4 * h);
        if (nextWidth < 0) {
            nextWidth = 0;
            nextEdge = edge + limited(-(ge - hew * w) / hee, 4 * h);
        }
        return new double[] {Math.max(-EDGE_MM, Math.min(EDGE_MM, nextEdge)), Math.min(WIDEST_MM, nextWidth)};
    }

    private static double limited(double step, double most) {
        return Math.max(-most, Math.min(most, step));
    }

    /** χ² with the priors' share at an edge and a width; leaves the HU in {@code solution}. */
    private double misfit(double edgeMm, double widthMm, double frontMm) {
        layers(edgeMm, widthMm, frontMm);
        equations.clear();
        for (int n = 0; n < rings; n++) {
            fillRow(n);
            equations.add(row, y[n], weight[n]);
        }
        addPriors(equations, 0);
        if (!equations.solve(LINEAR, solution)) {
            return Double.POSITIVE_INFINITY;
        }
        if (solution[EXCESS] < 0) {
            equations.solve(EXCESS, solution);
        }
        double sum = square((solution[METAL] - known.metalHu) / known.metalSdHu)
                + square((solution[FLUID] - known.fluidHu) / FLUID_SD_HU)
                + square(solution[SLOPE] / SLOPE_SD_HU_PER_MM)
                + square(solution[EXCESS] / EXCESS_SD_HU);
        for (int n = 0; n < rings; n++) {
            sum += weight[n] * square(y[n] - model(n));
        }
        return sum;
    }

    private void addPriors(NormalEquations to, int first) {
        to.addPrior(first + METAL, known.metalHu, 1 / square(known.metalSdHu));
        to.addPrior(first + FLUID, known.fluidHu, 1 / square(FLUID_SD_HU));
        to.addPrior(first + SLOPE, 0, 1 / square(SLOPE_SD_HU_PER_MM));
        to.addPrior(first + EXCESS, 0, 1 / square(EXCESS_SD_HU));
    }

    private void layers(double edgeMm, double widthMm, double frontMm) {
        double radius = known.radiusMm + edgeMm;
        discs(radius, metal);
        discs(radius + widthMm, beyondZone);
        discs(radius + widthMm + frontMm, beyondFront);
    }

    private void fillRow(int n) {
        double bone = 1 - beyondZone[n];
        row[METAL] = metal[n];
        row[FLUID] = beyondZone[n] - metal[n];
        row[BONE] = bone;
        row[SLOPE] = bone * (rho[n] - known.radiusMm - SLOPE_AT_MM);
        row[EXCESS] = beyondFront[n] - beyondZone[n];
    }

    private double model(int n) {
        fillRow(n);
        double sum = 0;
        for (int m = 0; m < LINEAR; m++) {
            sum += solution[m] * row[m];
        }
        return sum;
    }

    /** Share of a disc in each ring, cubic between the radii of the table. */
    private void discs(double radiusMm, double[] out) {
        double place = (radiusMm - known.fromRadiusMm) / BlurredDiscs.STEP_MM;
        int below = (int) Math.floor(place);
        double f = place - below;
        double a = -0.5 * f + f * f - 0.5 * f * f * f;
        double b = 1 - 2.5 * f * f + 1.5 * f * f * f;
        double c = 0.5 * f + 2 * f * f - 1.5 * f * f * f;
        double d = -0.5 * f * f + 0.5 * f * f * f;
        for (int n = 0; n < rings; n++) {
            double[] s = share[n];
            out[n] = a * s[below - 1] + b * s[below] + c * s[below + 1] + d * s[below + 2];
        }
    }

    /** Variance of the width from the Jacobian at a fit. */
    private double variance(double edgeMm, double widthMm, double frontMm) {
        misfit(edgeMm, widthMm, frontMm);
        double[] hu = solution.clone();
        int active = hu[EXCESS] > 0 ? LINEAR : EXCESS;
        double[] byEdge = derivative(edgeMm, widthMm, frontMm, DERIVATIVE_MM, 0, hu);
        double[] byWidth = derivative(edgeMm, widthMm, frontMm, 0, DERIVATIVE_MM, hu);
        layers(edgeMm, widthMm, frontMm);
        all.clear();
        double[] line = new double[LINEAR + 2];
        for (int n = 0; n < rings; n++) {
            fillRow(n);
            line[0] = byEdge[n];
            line[1] = byWidth[n];
            System.arraycopy(row, 0, line, 2, LINEAR);
            all.add(line, 0, weight[n]);
        }
        addPriors(all, 2);
        return all.variance(active + 2, 1);
    }

    private double[] derivative(
            double edgeMm, double widthMm, double frontMm, double stepEdge, double stepWidth, double[] hu) {
        layers(edgeMm + stepEdge, widthMm + stepWidth, frontMm);
        double[] d = new double[rings];
        for (int n = 0; n < rings; n++) {
            d[n] = value(n, hu);
        }
        double lower = Math.max(0, widthMm - stepWidth);
        layers(edgeMm - stepEdge, lower, frontMm);
        double span = stepEdge > 0 ? 2 * stepEdge : widthMm + stepWidth - lower;
        for (int n = 0; n < rings; n++) {
            d[n] = (d[n] - value(n, hu)) / span;
        }
        return d;
    }

    private double value(int n, double[] hu) {
        fillRow(n);
        double sum = 0;
        for (int m = 0; m < LINEAR; m++) {
            sum += hu[m] * row[m];
        }
        return sum;
    }

    private static double square(double x) {
        return x * x;
    }
}
