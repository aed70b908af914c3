package org.holdfast.phantom;

/**
 * How fine a lattice is, and how the blur is shared out between softened surfaces and the kernels along the axes.
 *
 * @param stepMm distance of lattice points, mm
 * @param blurMm standard deviation by which surfaces are softened, mm
 * @param sigmaPlaneMm standard deviation that is still missing along rows and columns, mm
 * @param sigmaNormalMm standard deviation that is still missing along the normal, mm
 */
record LatticeScale(double stepMm, double blurMm, double sigmaPlaneMm, double sigmaNormalMm) {

    /** Softening in lattice steps: a plane is then repeated by the lattice to 1e-3 of a step. */
    private static final double BLUR_STEPS = 0.6;
    /** Surfaces closer than about three times the softening, 0.27 mm here, begin to mix. */
    private static final double FINE_STEP_MM = 0.15;

    private static final double COARSE_STEP_MM = 0.30;
    /** Lattice steps to the smaller σ; the midpoint rule of the kernels is then good to exp(−21). */
    private static final double STEPS_PER_SIGMA = 1.2;

    static LatticeScale fine(PointSpread spread) {
        return of(FINE_STEP_MM, spread);
    }

    static LatticeScale coarse(PointSpread spread) {
        return of(COARSE_STEP_MM, spread);
    }

    /** Lattice points that cover a length. */
    int points(double lengthMm) {
        return (int) Math.ceil(lengthMm / stepMm) + 1;
    }

    private static LatticeScale of(double longestStepMm, PointSpread spread) {
        double sigma = Math.min(spread.sigmaInPlaneMm(), spread.sigmaAlongTableMm());
        double step = Math.min(longestStepMm, sigma / STEPS_PER_SIGMA);
        double blur = BLUR_STEPS * step;
        return new LatticeScale(
                step, blur, without(spread.sigmaInPlaneMm(), blur), without(spread.sigmaAlongTableMm(), blur));
    }

    private static double without(double sigma, double blur) {
        return Math.sqrt(sigma * sigma - blur * blur);
    }
}
