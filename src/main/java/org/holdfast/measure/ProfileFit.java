package org.holdfast.measure;

import java.util.Arrays;
import java.util.Optional;

/**
 * Fits the profile model to the values along a normal, for several thicknesses of the bone's front. Free are the
 * implant's edge, the gap, and the HU of implant, front and deeper bone; the HU in the gap, the blur, and where given the
 * implant's HU and edge, are known with an error and move within it, so that their errors are in the standard error.
 *
 * <p>Starts: for gaps over the whole range and two edges the model is linear in the HU; the best two gaps are refined, the
 * better one is the start for the other thicknesses. One object serves one thread and fits any number of profiles; cost
 * about 0.2 ms a profile of 60 values.
 */
final class ProfileFit {

    /** Thicknesses of the bone's front that are fitted, mm (measurement definitions, section 3). */
    static final double[] FRONT_MM = {0.4, 0.8, 1.2};

    /** Each stands for its neighbourhood: the thickness may move by so much, one standard deviation, mm. */
    static final double FRONT_SD_MM = 0.15;

    private static final double THINNEST_MM = 0.15;
    private static final double THICKEST_MM = 2;

    private static final double[] ONE_FRONT_MM = {0.8};
    private static final double[] NO_GAP = {0};
    private static final double[] START_GAPS_MM = {0, 0.3, 0.6, 1.0, 1.5, 2.1, 2.9, 3.9, 5.0};
    private static final double[] START_EDGES_MM = {0, -0.2};
    /** Fewer values than this cannot hold the free parameters. */
    private static final int MIN_VALUES = 7;

    private static final int SHORT_ROUNDS = 4;
    private static final int ROUNDS = 25;
    private static final double SETTLED = 1e-6;
    /** The largest standard error that is given: the gap is not determined at all. */
    static final double UNDETERMINED_MM = 99;
    /** Bounds of HU that a fit may take on. */
    private static final double LOWEST_HU = -200;

    private static final double HIGHEST_EXCESS_HU = 1800;
    private static final double HIGHEST_DEEP_HU = 1500;
    private static final double HIGHEST_METAL_HU = 40000;
    /** The edge may move so far from where it was first seen, mm. */
    private static final double EDGE_RANGE_MM = 1;
    /** Where the implant's plateau is read for a start, mm from the edge, in σ; and the tissue outside. */
    private static final double PLATEAU_SIGMA = 2;

    /** The gap's error is taken no nearer to 0 than this, in σ. */
    private static final double ERROR_AT_SIGMA = 0.5;

    private static final double SIGMA_LOW = 0.6;
    private static final double SIGMA_HIGH = 1.6;
    private static final double FREE_SIGMA_LOW = 0.3;
    private static final double FREE_SIGMA_HIGH = 3;

    private final ProfileKnown known;
    private final LayeredProfile model;
    private final BoundedLeastSquares solver = new BoundedLeastSquares(LayeredProfile.SIZE);
    private final double[] lower = new double[LayeredProfile.SIZE];
    private final double[] upper = new double[LayeredProfile.SIZE];
    private final double[] best = new double[LayeredProfile.SIZE];
    private final double[] other = new double[LayeredProfile.SIZE];
    private final double[] trial = new double[LayeredProfile.SIZE];
    private final double[][] information = new double[LayeredProfile.SIZE][LayeredProfile.SIZE];
    private final double[] gradient = new double[LayeredProfile.SIZE];
    private final boolean[] taken = new boolean[LayeredProfile.SIZE];
    private final LinearStart linear;
    private final Beside beside;
    private final double[] frontMm;
    private final double[] startGapsMm;
    private final double[] startCosts;
    private double[] inverseSd = new double[128];
    private int free;

    /** What lies beside the implant. */
    enum Beside {
        /** A gap, the front of bone and deeper bone. */
        BONE,
        /** One tissue, as beside a rod in muscle: no gap, no front. */
        ONE_TISSUE
    }

    ProfileFit(ProfileKnown known) {
        this(known, Beside.BONE);
    }

    ProfileFit(ProfileKnown known, Beside beside) {
        this.beside = beside;
        this.frontMm = beside == Beside.BONE ? FRONT_MM : ONE_FRONT_MM;
        this.startGapsMm = beside == Beside.BONE ? START_GAPS_MM : NO_GAP;
        this.startCosts = new double[startGapsMm.length * START_EDGES_MM.length];
        this.known = known;
        this.model = new LayeredProfile(known);
        this.linear = new LinearStart(known);
    }

    /**
     * Fits a profile.
     *
     * @param t places along the outward normal, mm, ascending
     * @param hu values there, finite; clipped ones at the ceiling
     * @param weight number of independent values that each is the mean of; may be null for 1 each
     * @param count how many elements of the arrays count
     * @return the fit; empty where there are too few values, or none on one side of the edge
     */
    Optional<FittedProfile> fit(double[] t, double[] hu, double[] weight, int count) {
        if (count < MIN_VALUES) {
            return Optional.empty();
        }
        double edge = firstEdge(t, hu, count);
        if (Double.isNaN(edge)) {
            return Optional.empty();
        }
        errors(t, hu, weight, count, edge);
        model.values(t, hu, inverseSd, count);
        bounds(t, count, edge);
        FittedProfile.Front[] fronts = new FittedProfile.Front[frontMm.length];
        int middle = frontMm.length / 2;
        start(t, hu, count, edge, frontMm[middle]);
        fronts[middle] = refined(best, frontMm[middle], count);
        double[] even = new double[frontMm.length];
        for (int n = 0; n < frontMm.length; n++) {
            even[n] = 1.0 / frontMm.length;
            if (n != middle) {
                fronts[n] = neighbour(fronts[middle], frontMm[n], count);
            }
        }
        return Optional.of(new FittedProfile(fronts, FittedProfile.weights(fronts, even)));
    }

    /** Half-maximum between plateau and outside, or on clipped data the fall from the ceiling; NaN if there is none. */
    private double firstEdge(double[] t, double[] hu, int count) {
        if (known.edge().isGiven()) {
            return known.edge().mean();
        }
        double outside = mean(t, hu, count, 2, 4);
        double inside = mean(t, hu, count, Double.NEGATIVE_INFINITY, -PLATEAU_SIGMA * known.sigmaMm());
        if (Double.isNaN(inside)) {
            inside = hu[0];
        }
        double level = 0.5 * (Math.min(inside, known.ceilingHu()) + (Double.isNaN(outside) ? hu[count - 1] : outside));
        for (int n = count - 2; n >= 0; n--) {
            if (hu[n] >= level && hu[n + 1] < level && t[n] < 2) {
                return t[n] + (t[n + 1] - t[n]) * (hu[n] - level) / (hu[n] - hu[n + 1]);
            }
        }
        return Double.NaN;
    }

    private static double mean(double[] t, double[] hu, int count, double from, double to) {
        double sum = 0;
        int values = 0;
        for (int n = 0; n < count; n++) {
            if (t[n] >= from && t[n] <= to) {
                sum += hu[n];
                values++;
            }
        }
        return values > 0 ? sum / values : Double.NaN;
    }

    /** Standard deviation of each value: noise, and the slope of the implant's flank times the error of the place. */
    private void errors(double[] t, double[] hu, double[] weight, int count, double edge) {
        if (inverseSd.length < count) {
            inverseSd = new double[count];
        }
        double rise = (known.plateau().isGiven() ? known.plateau().mean() : hu[0]) - hu[count - 1];
        double noise = known.noiseSdHu() * known.noiseSdHu();
        for (int n = 0; n < count; n++) {
            double slope = rise * NormalTable.density((t[n] - edge) / known.sigmaMm()) / known.sigmaMm();
            double place = known.placeSdMm() * slope;
            double share = weight == null ? 1 : weight[n];
            inverseSd[n] = 1 / Math.sqrt(known.noiseInflation() * noise / share + place * place);
        }
    }

    private void bounds(double[] t, int count, double edge) {
        lower[LayeredProfile.EDGE] = edge - EDGE_RANGE_MM;
        upper[LayeredProfile.EDGE] = edge + EDGE_RANGE_MM;
        lower[LayeredProfile.GAP] = 0;
        upper[LayeredProfile.GAP] = Math.max(0.5, t[count - 1] - edge);
        lower[LayeredProfile.PLATEAU] = LOWEST_HU;
        upper[LayeredProfile.PLATEAU] = HIGHEST_METAL_HU;
        lower[LayeredProfile.EXCESS] = 0;
        upper[LayeredProfile.EXCESS] = HIGHEST_EXCESS_HU;
        lower[LayeredProfile.THICKNESS] = THINNEST_MM;
        upper[LayeredProfile.THICKNESS] = THICKEST_MM;
        lower[LayeredProfile.DEEP] = LOWEST_HU;
        upper[LayeredProfile.DEEP] = HIGHEST_DEEP_HU;
        lower[LayeredProfile.FLUID] = LOWEST_HU;
        upper[LayeredProfile.FLUID] = -LOWEST_HU;
        boolean isSigmaFree = known.sigmaSdMm() == Double.POSITIVE_INFINITY;
        lower[LayeredProfile.SIGMA] = (isSigmaFree ? FREE_SIGMA_LOW : SIGMA_LOW) * known.sigmaMm();
        upper[LayeredProfile.SIGMA] = (isSigmaFree ? FREE_SIGMA_HIGH : SIGMA_HIGH) * known.sigmaMm();
        fix(LayeredProfile.EDGE, known.edge().sd(), known.edge().mean());
        fix(LayeredProfile.PLATEAU, known.plateau().sd(), known.plateau().mean());
        fix(LayeredProfile.FLUID, known.fluid().sd(), known.fluid().mean());
        fix(LayeredProfile.SIGMA, known.sigmaSdMm(), known.sigmaMm());
        if (beside == Beside.ONE_TISSUE) {
            fix(LayeredProfile.GAP, 0, 0);
            fix(LayeredProfile.EXCESS, 0, 0);
            fix(LayeredProfile.THICKNESS, 0, ONE_FRONT_MM[0]);
        }
        free = 0;
        for (int n = 0; n < LayeredProfile.SIZE; n++) {
            taken[n] = upper[n] > lower[n];
            free += taken[n] ? 1 : 0;
        }
    }

    private void fix(int parameter, double sd, double value) {
        if (sd == 0) {
            lower[parameter] = value;
            upper[parameter] = value;
        }
    }

    /** Leaves the better of the two best starts, shortly refined, in {@link #best}. */
    private void start(double[] t, double[] hu, int count, double edge, double thicknessMm) {
        model.front(new ProfileKnown.Prior(thicknessMm, FRONT_SD_MM));
        int[] order = {-1, -1};
        for (int n = 0; n < startCosts.length; n++) {
            linear(t, hu, count, edge, thicknessMm, n, trial);
            startCosts[n] = model.costAt(trial, null, null);
            if (order[0] < 0 || startCosts[n] < startCosts[order[0]]) {
                order[0] = n;
            }
        }
        for (int n = 0; n < startCosts.length; n++) {
            boolean isOtherGap = n / START_EDGES_MM.length != order[0] / START_EDGES_MM.length;
            if (isOtherGap && (order[1] < 0 || startCosts[n] < startCosts[order[1]])) {
                order[1] = n;
            }
        }
        linear(t, hu, count, edge, thicknessMm, order[0], best);
        double costBest = solver.minimise(model, best, lower, upper, SHORT_ROUNDS, SETTLED);
        if (order[1] < 0) {
            return;
        }
        linear(t, hu, count, edge, thicknessMm, order[1], other);
        double costOther = solver.minimise(model, other, lower, upper, SHORT_ROUNDS, SETTLED);
        if (costOther < costBest) {
            System.arraycopy(other, 0, best, 0, best.length);
        }
    }

    private void linear(double[] t, double[] hu, int count, double edge, double thicknessMm, int start, double[] x) {
        double gap = startGapsMm[start / START_EDGES_MM.length];
        double shift = known.edge().isGiven() ? 0 : START_EDGES_MM[start % START_EDGES_MM.length];
        linear.solve(t, hu, inverseSd, count, edge + shift, gap, thicknessMm, x);
        clamp(x);
    }

    private void clamp(double[] x) {
        for (int n = 0; n < x.length; n++) {
            x[n] = Math.min(upper[n], Math.max(lower[n], x[n]));
        }
    }

    /** The fit for another thickness, from that of a first one: the front keeps its middle and its excess mass. */
    private FittedProfile.Front neighbour(FittedProfile.Front from, double thicknessMm, int count) {
        Arrays.fill(other, 0);
        double ratio = from.thicknessMm() / thicknessMm;
        other[LayeredProfile.EDGE] = from.edgeMm();
        other[LayeredProfile.GAP] = from.gapMm() + 0.5 * (from.thicknessMm() - thicknessMm);
        other[LayeredProfile.PLATEAU] = from.plateauHu();
        other[LayeredProfile.EXCESS] = ratio * (from.frontHu() - from.deepHu());
        other[LayeredProfile.THICKNESS] = thicknessMm;
        other[LayeredProfile.DEEP] = from.deepHu();
        other[LayeredProfile.FLUID] = from.fluidHu();
        other[LayeredProfile.SIGMA] = from.sigmaMm();
        clamp(other);
        return refined(other, thicknessMm, count);
    }

    private FittedProfile.Front refined(double[] x, double thicknessMm, int count) {
        model.front(new ProfileKnown.Prior(thicknessMm, FRONT_SD_MM));
        double cost = solver.minimise(model, x, lower, upper, ROUNDS, SETTLED);
        double squares = model.sumOfSquares(x) * known.noiseInflation();
        double misfit = Math.sqrt(squares / Math.max(1, count - free));
        System.arraycopy(x, 0, trial, 0, x.length);
        // At a gap of 0 the edge's two sides move as one and the linearised error has no bound; half a blur on it
        // holds.
        trial[LayeredProfile.GAP] = Math.max(x[LayeredProfile.GAP], ERROR_AT_SIGMA * x[LayeredProfile.SIGMA]);
        model.costAt(trial, information, gradient);
        double scale = Math.max(1, misfit);
        boolean sigmaTaken = taken[LayeredProfile.SIGMA];
        boolean fluidTaken = taken[LayeredProfile.FLUID];
        boolean gapTaken = taken[LayeredProfile.GAP];
        taken[LayeredProfile.GAP] = true;
        double all = se(LayeredProfile.GAP, scale);
        double sigmaSe = sigmaTaken ? se(LayeredProfile.SIGMA, scale) : 0;
        taken[LayeredProfile.SIGMA] = false;
        taken[LayeredProfile.FLUID] = false;
        double noise = se(LayeredProfile.GAP, scale);
        taken[LayeredProfile.SIGMA] = sigmaTaken;
        taken[LayeredProfile.FLUID] = fluidTaken;
        taken[LayeredProfile.GAP] = gapTaken;
        double alone = scale / Math.sqrt(information[LayeredProfile.GAP][LayeredProfile.GAP]);
        return new FittedProfile.Front(
                thicknessMm,
                x[LayeredProfile.EDGE],
                x[LayeredProfile.GAP],
                x[LayeredProfile.PLATEAU],
                x[LayeredProfile.DEEP] + x[LayeredProfile.EXCESS],
                x[LayeredProfile.DEEP],
                x[LayeredProfile.FLUID],
                x[LayeredProfile.SIGMA],
                sigmaSe,
                x[LayeredProfile.THICKNESS],
                cost,
                misfit,
                noise,
                all,
                all < UNDETERMINED_MM ? all / alone : UNDETERMINED_MM);
    }

    /** Standard error of a parameter over those that are taken in. */
    private double se(int parameter, double scale) {
        double variance = BoundedLeastSquares.Cholesky.inverseDiagonal(information, taken, parameter);
        return variance >= 0 ? Math.min(UNDETERMINED_MM, scale * Math.sqrt(variance)) : UNDETERMINED_MM;
    }
}
