package org.holdfast.measure;

import java.util.Arrays;

/**
 * The profile model with its derivatives against a set of values: solid body | porous layer | gap | front of the bone |
 * deeper bone, piecewise constant along the normal, blurred and clipped; and the sum of squares that the fit minimises.
 * Holds the values of one profile at a time; one object serves one thread.
 *
 * <p>HU(t) = core + Σ step_n · F((t − b_n) / σ) over the borders b_n, F the blurred unit step: Φ for values at points; for
 * means over a voxel's box Φ(x) − κ/(24 σ⁴) · He₃(x) φ(x) with κ = −Σ (n_i · extent_i)⁴ / 120, the first term of
 * Edgeworth's series. On a cylinder a border of radius R shows σ_across² / (2 R) nearer to the axis (the heat equation
 * in cylindrical coordinates, with the drift 1/ρ taken at the border).
 *
 * <p>Loss: ρ(z) = 2 (√(1 + z) − 1) of z = (residual / (k · SD))², k = {@value #ROBUST_SD}; what is known beforehand enters
 * as plain squares.
 */
final class LayeredProfile implements BoundedLeastSquares.Problem {

    static final int EDGE = 0;
    static final int GAP = 1;
    static final int PLATEAU = 2;
    /** HU of the front beyond those of the deeper bone. */
    static final int EXCESS = 3;

    static final int DEEP = 4;
    static final int FLUID = 5;
    static final int SIGMA = 6;
    /** Thickness of the front, mm. */
    static final int THICKNESS = 7;

    static final int SIZE = 8;

    /** Residuals beyond so many standard deviations of the noise count ever less. */
    static final double ROBUST_SD = 3;

    private final ProfileKnown known;
    private final double[] priorMean = new double[SIZE];
    private final double[] priorWeight = new double[SIZE];
    private final double[] row = new double[SIZE];

    private double[] t;
    private double[] hu;
    private double[] inverseSd;
    private int count;
    private double model;
    private double share;
    private double slope;

    LayeredProfile(ProfileKnown known) {
        this.known = known;
        prior(EDGE, known.edge());
        prior(PLATEAU, known.plateau());
        prior(FLUID, known.fluid());
        prior(SIGMA, new ProfileKnown.Prior(known.sigmaMm(), known.sigmaSdMm()));
    }

    private void prior(int parameter, ProfileKnown.Prior prior) {
        priorMean[parameter] = prior.mean();
        priorWeight[parameter] = prior.isGiven() && prior.sd() > 0 ? 1 / (prior.sd() * prior.sd()) : 0;
    }

    /**
     * Sets the values.
     *
     * @param places t of each value, mm
     * @param values HU
     * @param perSd 1 / standard deviation of each value
     * @param size how many of each array count; the arrays are read later and not copied
     */
    void values(double[] places, double[] values, double[] perSd, int size) {
        this.t = places;
        this.hu = values;
        this.inverseSd = perSd;
        this.count = size;
    }

    /** Sets what is taken for the thickness of the bone's front, mm. */
    void front(ProfileKnown.Prior thicknessMm) {
        prior(THICKNESS, thicknessMm);
    }

    @Override
    public double costAt(double[] x, double[][] information, double[] gradient) {
        boolean derivatives = information != null;
        if (derivatives) {
            for (double[] line : information) {
                Arrays.fill(line, 0);
            }
            Arrays.fill(gradient, 0);
        }
        double softness = ROBUST_SD * ROBUST_SD / known.noiseInflation();
        double cost = 0;
        for (int n = 0; n < count; n++) {
            evaluate(x, t[n], derivatives);
            double scale = inverseSd[n];
            double residual = (model - hu[n]) * scale;
            double root = Math.sqrt(1 + residual * residual / softness);
            cost += softness * (root - 1);
            if (derivatives) {
                accumulate(information, gradient, scale * scale / root, model - hu[n]);
            }
        }
        for (int n = 0; n < SIZE; n++) {
            double off = x[n] - priorMean[n];
            cost += 0.5 * priorWeight[n] * off * off;
            if (derivatives) {
                information[n][n] += priorWeight[n];
                gradient[n] += priorWeight[n] * off;
            }
        }
        return cost;
    }

    private void accumulate(double[][] information, double[] gradient, double weight, double residual) {
        for (int a = 0; a < SIZE; a++) {
            double weighted = weight * row[a];
            gradient[a] += weighted * residual;
            double[] line = information[a];
            for (int b = 0; b <= a; b++) {
                line[b] += weighted * row[b];
            }
        }
    }

    /** Sum of squared residuals in units of the values' standard deviations, at x. */
    double sumOfSquares(double[] x) {
        double sum = 0;
        for (int n = 0; n < count; n++) {
            evaluate(x, t[n], false);
            double residual = (model - hu[n]) * inverseSd[n];
            sum += residual * residual;
        }
        return sum;
    }

    /** HU of the model at a place. */
    double huAt(double[] x, double tMm) {
        evaluate(x, tMm, false);
        return model;
    }

    /** HU and derivatives of the model at a place, {@code [parameter]}; the array is overwritten by the next call. */
    double[] derivativesAt(double[] x, double tMm) {
        evaluate(x, tMm, true);
        return row;
    }

    private void evaluate(double[] x, double at, boolean derivatives) {
        if (derivatives) {
            Arrays.fill(row, 0);
        }
        double sigma = x[SIGMA];
        double edge = x[EDGE];
        double gapEnd = edge + x[GAP];
        double frontEnd = gapEnd + x[THICKNESS];
        double value = x[PLATEAU];
        if (known.layerMm() < Double.POSITIVE_INFINITY) {
            value = known.coreHu()
                    + border(at, edge - known.layerMm(), sigma, x[PLATEAU] - known.coreHu(), derivatives);
            row[PLATEAU] += share;
        } else {
            row[PLATEAU] += 1;
        }
        double front = x[DEEP] + x[EXCESS] - x[FLUID];
        value += border(at, edge, sigma, x[FLUID] - x[PLATEAU], derivatives);
        if (derivatives) {
            row[PLATEAU] -= share;
            row[FLUID] += share;
        }
        value += border(at, gapEnd, sigma, front, derivatives);
        if (derivatives) {
            row[FLUID] -= share;
            row[DEEP] += share;
            row[EXCESS] += share;
            row[GAP] -= slope;
        }
        value += border(at, frontEnd, sigma, -x[EXCESS], derivatives);
        if (derivatives) {
            row[EXCESS] -= share;
            row[GAP] -= slope;
            row[THICKNESS] -= slope;
        }
        if (value > known.ceilingHu()) {
            value = known.ceilingHu();
            if (derivatives) {
                Arrays.fill(row, 0);
            }
        }
        model = value;
    }

    /** What a border adds at a place; leaves its step and slope, and its derivatives by edge and blur in the row. */
    private double border(double at, double border, double sigma, double rise, boolean derivatives) {
        share = step(at, border, sigma);
        if (derivatives) {
            slope = rise * stepSlope(at, border, sigma);
            row[SIGMA] -= slope * place(at, border) / sigma + rise * boxBySigma(at, border, sigma);
            slope *= shiftByBorder(border);
            row[EDGE] -= slope;
        }
        return rise * share;
    }

    /** Distance from where a border shows, mm. */
    private double place(double at, double border) {
        double radius = known.radiusMm();
        if (radius == Double.POSITIVE_INFINITY) {
            return at - border;
        }
        double across = known.sigmaAcrossMm();
        return at - border + 0.5 * across * across / (radius + border);
    }

    /** How far the place where a border shows moves with the border. */
    private double shiftByBorder(double border) {
        double radius = known.radiusMm();
        if (radius == Double.POSITIVE_INFINITY) {
            return 1;
        }
        double share = known.sigmaAcrossMm() / (radius + border);
        return 1 + 0.5 * share * share;
    }

    /** The blurred unit step at a place. */
    private double step(double at, double border, double sigma) {
        double x = place(at, border) / sigma;
        double share = NormalTable.cumulative(x);
        if (known.boxMm4() > 0) {
            double flat = known.boxMm4() / (24 * sigma * sigma * sigma * sigma);
            share += flat * (x * x - 3) * x * NormalTable.density(x);
        }
        return share;
    }

    /** How the voxel box's part of the step falls as the blur grows, 1/mm. */
    private double boxBySigma(double at, double border, double sigma) {
        if (known.boxMm4() == 0) {
            return 0;
        }
        double x = place(at, border) / sigma;
        double flat = known.boxMm4() / (24 * sigma * sigma * sigma * sigma);
        return 4 * flat / sigma * (x * x - 3) * x * NormalTable.density(x);
    }

    /** Derivative of the blurred unit step by the place, 1/mm. */
    private double stepSlope(double at, double border, double sigma) {
        double x = place(at, border) / sigma;
        double slope = NormalTable.density(x);
        if (known.boxMm4() > 0) {
            double flat = known.boxMm4() / (24 * sigma * sigma * sigma * sigma);
            double square = x * x;
            slope *= 1 - flat * (square * square - 6 * square + 3);
        }
        return slope / sigma;
    }

    ProfileKnown known() {
        return known;
    }
}
