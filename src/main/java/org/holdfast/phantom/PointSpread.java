package org.holdfast.phantom;

/**
 * The Gaussian blur of a scan, on top of the averaging over a voxel.
 *
 * @param sigmaInPlaneMm standard deviation along rows and columns, mm, 0.1 to 5
 * @param sigmaAlongTableMm standard deviation along the normal of the slices, mm, 0.1 to 5
 */
public record PointSpread(double sigmaInPlaneMm, double sigmaAlongTableMm) {

    private static final double FWHM_PER_SIGMA = 2 * Math.sqrt(2 * Math.log(2));

    public PointSpread {
        requireInRange(sigmaInPlaneMm, "sigmaInPlaneMm");
        requireInRange(sigmaAlongTableMm, "sigmaAlongTableMm");
    }

    /** Full width at half maximum along the table, 2.355 σ, mm: what a scanner would call its slice thickness. */
    public double sliceThicknessMm() {
        return FWHM_PER_SIGMA * sigmaAlongTableMm;
    }

    private static void requireInRange(double sigma, String name) {
        if (!(sigma >= 0.1 && sigma <= 5)) {
            throw new IllegalArgumentException(name + " must lie in [0.1, 5] mm, got " + sigma);
        }
    }
}
