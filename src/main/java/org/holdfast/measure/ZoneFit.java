package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * The width of the lucent zone round a screw from the rings of a stretch or sector: metal of radius R | fluid of width w |
 * front of the bone of thickness c | deeper bone, round the axis, blurred as {@link BlurredDiscs} says.
 *
 * <p>Unknown: edge and width (searched), and HU of metal, fluid, bone, its slope with depth and the front's excess
 * (linear, solved for each edge and width; the front is never darker than the deeper bone). Metal and fluid carry what is
 * known of them as a prior. Thickness and HU of the front cannot be told apart, so that no front and 0.4, 0.8, 1.2 and 1.6 mm
 * are each fitted, then three more about the best, and weighted by evidence. Standard error: 1/1.96 of the way to where the weighted likelihood, the edge
 * free, has fallen to its 95 % level, on the wider side (χ² is first divided by its reduced value where that is above 1),
 * with the spread over the thicknesses and the model's own exactness.
 * <p>A screw that touches bone less dense than what follows (a pedicle with its cortex near) would look like a zone to these
 * layers; so the HU between is fitted too, and there is no zone where it is clearly brighter than fluid.
 *
 * <p>Not thread-safe.
 */
final class ZoneFit {

    /** Widest zone that is looked for, mm. */
    static final double WIDEST_MM = 4.5;
    /** The metal's edge is looked for so far from the laid-out radius, mm. */
    static final double EDGE_MM = 0.9;

    private static final double[] FRONTS_MM = {0, 0.4, 0.8, 1.2, 1.6};
    private static final double FRONT_STEP_MM = 0.4;
    /** Where a front is seen its thickness is looked for between these, mm from the best. */
    private static final double[] FINER_MM = {-0.15, 0, 0.15};

    private static final double THINNEST_MM = 0.2;
    /** Thickness on whose model the coarse search runs. */
    private static final double COARSE_FRONT_MM = 0.8;

    private static final double COARSE_EDGE_MM = 0.15;
    private static final double COARSE_WIDTH_MM = 0.25;
    private static final double[] FINE_MM = {0.06, 0.02, 0.006};
    private static final int MOVES = 12;
    private static final double EXPECTED_UP_TO_MM = 3;
    private static final double EDGE_OF_BONE_MM = 0.8;
    /** A fit whose residuals are 3.5 times the noise describes something else. */
    private static final double WORST_REDUCED = 12;

    /** Bone is so much brighter than fluid. */
    private static final double OVER_FLUID_HU = 60;
    /** Nearly as far over fluid as the deeper bone: a zone on one side only mixes both over the circumference. */
    private static final double AS_DEEP_BONE = 0.7;
    /** And by so many of its standard errors. */
    private static final double CERTAIN_SD = 3;

    private static final double FIRST_STEP_MM = 0.02;
    private static final double LAST_STEP_MM = 4e-3;
    private static final double LARGEST_HALF_MM = 2;
    /** The edge moves so many steps at most from where it was, when a width is tried. */
    private static final double EDGE_STEPS = 3;
    /** A thickness whose χ² lies so far over the best does not count in the error. */
    private static final double NEGLIGIBLE_RISE = 30;
    /** Share of the evidence that counts where the front's thickness enters the standard error. */
    private static final double TEMPERED = 0.25;
    /** Layers and blur are no more exact than this; scatter of station means on phantoms of another draw. */
    private static final double MODEL_SE_MM = 0.03;

    private static final double NORMAL_95 = 1.959963984540054;
    /** Bone must be seen so far beyond a zone. */
    private static final double BEYOND_MM = 1;
    /** A width so near to the widest has no outer border within reach. */
    private static final double AT_END_MM = 0.05;

    private static final int MIN_RINGS = 25;

    private static final double FLUID_SD_HU = 20;
    /** Prior of a HU of which nothing is known. */
    private static final double UNKNOWN_SD_HU = 1000;

    private static final double SLOPE_SD_HU_PER_MM = 15;
    private static final double EXCESS_SD_HU = 300;
    /** Bone's slope counts from so far outside the screw, mm. */
    private static final double SLOPE_AT_MM = 3;
    /** The model of the metal's flank is taken to be so exact, share of the metal's contribution. */
    private static final double FLANK_ERROR = 0.003;

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
     * @param fittedSeMm the same before it was weighed against no zone, for what can be seen at all
     * @param edgeMm the metal's radius minus the laid-out one
     * @param boneHu HU of the deeper bone
     * @param slopeHuPerMm how the deeper bone's HU change outwards
     * @param frontMm thickness of the front in the best fit, 0 for none
     * @param frontExcessHu how much brighter the front is than the deeper bone
     * @param isBordered whether bone was seen beyond the zone
     * @param misfit χ² with the priors' share, of the best thickness
     * @param reduced χ² over its degrees of freedom
     */
    record Zone(
            double widthMm,
            double seMm,
            double fittedSeMm,
            double edgeMm,
            double boneHu,
            double slopeHuPerMm,
            double frontMm,
            double frontExcessHu,
            boolean isBordered,
            double misfit,
            double reduced) {

        /** How much brighter the bone's edge, 0.8 mm of it, is than the bone so much further out, HU. */
        double edgeOverDepthHu(double depthMm) {
            return frontExcessHu * Math.min(1, frontMm / EDGE_OF_BONE_MM) - slopeHuPerMm * depthMm;
        }

        /**
         * The same with one more, independent, standard error, weighed against no zone at all. A screw is taken to be as
         * likely firm as surrounded by a zone of any width up to 3 mm; the width is the mean over both and the standard
         * error that of both. A zone several errors wide does not change; one within its error, which can only come out
         * too wide as no width is under 0, is drawn towards none.
         */
        Zone withError(double otherSeMm) {
            double se = Math.hypot(seMm, otherSeMm);
            double zone = se * Math.sqrt(2 * Math.PI) / EXPECTED_UP_TO_MM;
            double none = Math.exp(-0.5 * square(widthMm / se));
            double share = zone / (zone + none);
            return new Zone(
                    share * widthMm,
                    Math.sqrt(share * se * se
                            + share * (1 - share) * widthMm * widthMm
                            + (1 - share) * MODEL_SE_MM * MODEL_SE_MM),
                    Math.hypot(fittedSeMm, otherSeMm),
                    edgeMm,
                    boneHu,
                    slopeHuPerMm,
                    frontMm,
                    frontExcessHu,
                    isBordered,
                    misfit,
                    reduced);
        }

        /** The same with another standard error for what can be seen at all. */
        private Zone withFittedSe(double otherSeMm) {
            return new Zone(
                    widthMm,
                    seMm,
                    otherSeMm,
                    edgeMm,
                    boneHu,
                    slopeHuPerMm,
                    frontMm,
                    frontExcessHu,
                    isBordered,
                    misfit,
                    reduced);
        }

        /** Whether the layers describe what is seen well enough for a width. */
        boolean isFitting() {
            return reduced < WORST_REDUCED;
        }
    }

    private final Known known;
    private final NormalEquations equations = new NormalEquations(LINEAR);
    private final double[] solution = new double[LINEAR];
    private final double[] row = new double[LINEAR];
    /** Whether what lies between screw and bone is taken for fluid. */
    private boolean isFluidKnown = true;

    private int rings;
    private double widestMm;
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

    /**
     * Fits; null where too few rings carry voxels under the scale's ceiling.
     *
     * @param withError whether the standard error is wanted; NaN if not
     */
    Zone fit(RingSums sums, boolean withError) {
        take(sums);
        if (rings < MIN_RINGS) {
            return null;
        }
        widestMm = Math.min(WIDEST_MM, rho[rings - 1] - known.radiusMm - BEYOND_MM);
        if (widestMm < 2 * COARSE_WIDTH_MM) {
            return null;
        }
        double[] start = coarse(COARSE_FRONT_MM);
        List<Candidate> candidates = new ArrayList<>();
        Candidate best = null;
        for (double front : FRONTS_MM) {
            candidates.add(candidate(front, fine(start, front)));
            Candidate last = candidates.get(candidates.size() - 1);
            best = best == null || last.misfit < best.misfit ? last : best;
        }
        if (best.frontMm > 0) {
            double between = thicknessBetween(candidates, best);
            for (double off : FINER_MM) {
                double front = Math.max(THINNEST_MM, between + off);
                Candidate finer = candidate(front, fine(new double[] {best.edgeMm, best.widthMm}, front));
                candidates.add(finer);
                best = finer.misfit < best.misfit ? finer : best;
            }
        }
        Zone firm = boneInTheZone(best);
        Zone zone = weighted(candidates, best, best.misfit / freedom(), withError);
        return firm == null ? zone : firm.withFittedSe(zone.fittedSeMm);
    }

    private int freedom() {
        return rings - LINEAR - 2;
    }

    /**
     * No zone, where what lies between screw and bone's front is clearly brighter than fluid: in a pedicle the cortex lies a
     * mm or two from the screw with less dense bone between. Null where it may be fluid, all of it or a part.
     */
    private Zone boneInTheZone(Candidate zone) {
        isFluidKnown = false;
        double front = Math.max(zone.frontMm, COARSE_FRONT_MM);
        double[] place = fine(new double[] {zone.edgeMm, Math.max(zone.widthMm, COARSE_WIDTH_MM)}, front);
        double misfit = misfit(place[0], place[1], front);
        double between = solution[FLUID];
        double sd = Math.sqrt(equations.variance(LINEAR, FLUID));
        double reduced = misfit / freedom();
        Zone firm = new Zone(
                0,
                firmSe(place[1], between, sd),
                firmSe(place[1], between, sd),
                place[0],
                solution[BONE],
                solution[SLOPE],
                front,
                solution[EXCESS],
                true,
                misfit,
                reduced);
        isFluidKnown = true;
        double certain = Math.max(OVER_FLUID_HU, CERTAIN_SD * sd * Math.sqrt(Math.max(1, reduced)));
        double asBone = AS_DEEP_BONE * (firm.boneHu - known.fluidHu);
        return between > known.fluidHu + Math.max(certain, asBone) ? firm : null;
    }

    /** How much of the stretch could be fluid by the error of its HU. */
    private double firmSe(double widthMm, double betweenHu, double sdHu) {
        double overFluid = Math.max(OVER_FLUID_HU, betweenHu - known.fluidHu);
        return Math.hypot(MODEL_SE_MM, widthMm * sdHu / overFluid);
    }

    /**
     * The best fit with one thickness of the front.
     *
     * @param penalty what its evidence loses, as a rise of χ², for the excess that it may choose freely and for its share
     *     in what is expected beforehand
     */
    private record Candidate(double frontMm, double edgeMm, double widthMm, double misfit, double penalty) {

        double weight(Candidate best, double scale, double power) {
            return Math.exp(-0.5 * power * ((misfit - best.misfit) / scale + penalty));
        }
    }

    /** The thickness of least misfit by a parabola through the best of the list and its neighbours. */
    private static double thicknessBetween(List<Candidate> candidates, Candidate best) {
        int n = candidates.indexOf(best);
        if (n < 2 || n + 1 >= candidates.size()) {
            return best.frontMm;
        }
        double below = candidates.get(n - 1).misfit - best.misfit;
        double above = candidates.get(n + 1).misfit - best.misfit;
        return best.frontMm + 0.5 * FRONT_STEP_MM * (below - above) / (below + above);
    }

    private Candidate candidate(double frontMm, double[] place) {
        double misfit = misfit(place[0], place[1], frontMm);
        if (frontMm == 0) {
            return new Candidate(frontMm, place[0], place[1], misfit, 0);
        }
        double variance = equations.variance(LINEAR, EXCESS);
        double penalty = Math.log(square(EXCESS_SD_HU) / variance) + 2 * Math.log(FRONTS_MM.length - 1);
        return new Candidate(frontMm, place[0], place[1], misfit, penalty);
    }

    private Zone weighted(List<Candidate> candidates, Candidate best, double reduced, boolean withError) {
        double scale = Math.max(1, reduced);
        double total = 0;
        double width = 0;
        double edge = 0;
        for (Candidate c : candidates) {
            double weight = c.weight(best, scale, 1);
            total += weight;
            width += weight * c.widthMm;
            edge += weight * c.edgeMm;
        }
        width /= total;
        double se = Double.NaN;
        if (withError) {
            double fitted = halfWidth(candidates, best, scale, width, edge / total) / NORMAL_95;
            se = Math.sqrt(square(fitted) + square(MODEL_SE_MM) + spread(candidates, best, scale, width));
        }
        misfit(best.edgeMm, best.widthMm, best.frontMm);
        return new Zone(
                width,
                se,
                se,
                edge / total,
                solution[BONE],
                solution[SLOPE],
                best.frontMm,
                solution[EXCESS],
                best.widthMm < widestMm - AT_END_MM,
                best.misfit,
                reduced);
    }

    /** Variance between the thicknesses of the front, which count nearly alike here: none of them need be the true one. */
    private static double spread(List<Candidate> candidates, Candidate best, double scale, double width) {
        double total = 0;
        double sum = 0;
        for (Candidate c : candidates) {
            double weight = c.weight(best, scale, TEMPERED);
            total += weight;
            sum += weight * square(c.widthMm - width);
        }
        return sum / total;
    }

    /** How far the width may lie from its estimate on the wider side before the likelihood has fallen to 95 %. */
    private double halfWidth(List<Candidate> candidates, Candidate best, double scale, double width, double edge) {
        double top = profile(candidates, best, scale, width, edge);
        for (Candidate c : candidates) {
            top = Math.min(top, profile(candidates, best, scale, c.widthMm, c.edgeMm));
        }
        double limit = top + NORMAL_95 * NORMAL_95;
        double above = crossing(candidates, best, scale, width, edge, limit, 1);
        double below = crossing(candidates, best, scale, width, edge, limit, -1);
        return Math.max(above, below);
    }

    private double crossing(
            List<Candidate> candidates,
            Candidate best,
            double scale,
            double width,
            double edge,
            double limit,
            int side) {
        double inside = 0;
        double step = FIRST_STEP_MM;
        while (step > LAST_STEP_MM) {
            double next = inside + step;
            double at = width + side * next;
            boolean isOff = at < 0 || at > widestMm || profile(candidates, best, scale, at, edge) > limit;
            if (isOff) {
                step *= 0.5;
                if (inside == 0) {
                    continue;
                }
                step = Math.min(step, 0.25 * inside);
            } else {
                inside = next;
                step *= 2;
            }
            if (inside > LARGEST_HALF_MM) {
                return inside;
            }
        }
        return inside + step;
    }

    /** −2 log of the weighted likelihood at a width, the edge free. */
    private double profile(
            List<Candidate> candidates, Candidate best, double scale, double widthMm, double nearEdgeMm) {
        double sum = 0;
        for (Candidate c : candidates) {
            if (c.misfit - best.misfit > NEGLIGIBLE_RISE * scale) {
                continue;
            }
            double h = FINE_MM[1];
            double middle = misfit(nearEdgeMm, widthMm, c.frontMm);
            double up = misfit(nearEdgeMm + h, widthMm, c.frontMm);
            double down = misfit(nearEdgeMm - h, widthMm, c.frontMm);
            double curvature = Math.max(1e-9, (up - 2 * middle + down) / (h * h));
            double gradient = (up - down) / (2 * h);
            double step = limited(-gradient / curvature, EDGE_STEPS * h);
            double lowest = middle + gradient * step + 0.5 * curvature * step * step;
            sum += Math.exp(-0.5 * ((lowest - best.misfit) / scale + c.penalty));
        }
        return -2 * Math.log(sum);
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
            for (double width = 0; width < widestMm + 1e-9; width += COARSE_WIDTH_MM) {
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
        return new double[] {Math.max(-EDGE_MM, Math.min(EDGE_MM, nextEdge)), Math.min(widestMm, nextWidth)};
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
        addPriors();
        if (!equations.solve(LINEAR, solution)) {
            return Double.POSITIVE_INFINITY;
        }
        if (solution[EXCESS] < 0) {
            equations.solve(EXCESS, solution);
        }
        double sum = square((solution[METAL] - known.metalHu) / known.metalSdHu)
                + square((solution[FLUID] - known.fluidHu) / fluidSdHu())
                + square(solution[SLOPE] / SLOPE_SD_HU_PER_MM)
                + square(solution[EXCESS] / EXCESS_SD_HU);
        for (int n = 0; n < rings; n++) {
            sum += weight[n] * square(y[n] - model(n));
        }
        return sum;
    }

    private void addPriors() {
        equations.addPrior(METAL, known.metalHu, 1 / square(known.metalSdHu));
        equations.addPrior(FLUID, known.fluidHu, 1 / square(fluidSdHu()));
        equations.addPrior(SLOPE, 0, 1 / square(SLOPE_SD_HU_PER_MM));
        equations.addPrior(EXCESS, 0, 1 / square(EXCESS_SD_HU));
    }

    private double fluidSdHu() {
        return isFluidKnown ? FLUID_SD_HU : UNKNOWN_SD_HU;
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

    private static double square(double x) {
        return x * x;
    }
}
