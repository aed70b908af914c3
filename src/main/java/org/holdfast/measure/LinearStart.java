package org.holdfast.measure;

/**
 * A start of the profile fit: for a given edge, gap and front the model is linear in the HU of implant, front and deeper
 * bone, which are solved for. Values at the ceiling are left out. One object serves one thread.
 */
final class LinearStart {

    private static final double CEILING_SLACK_HU = 10;
    /** Front and deeper bone are drawn together so weakly that only an undetermined front is moved, 1/HU². */
    private static final double RIDGE = 1e-6;

    private final ProfileKnown known;
    private final double[][] normal = new double[3][3];
    private final double[] right = new double[3];

    LinearStart(ProfileKnown known) {
        this.known = known;
    }

    /** Writes the start over {@code x}; the arrays as in {@link LayeredProfile#values}. */
    void solve(
            double[] t,
            double[] hu,
            double[] inverseSd,
            int count,
            double edgeMm,
            double gapMm,
            double frontMm,
            double[] x) {
        ridge();
        double sigma = known.sigmaMm();
        double fluid = known.fluid().mean();
        boolean isLayered = known.layerMm() < Double.POSITIVE_INFINITY;
        for (int n = 0; n < count; n++) {
            if (hu[n] >= known.ceilingHu() - CEILING_SLACK_HU) {
                continue;
            }
            double layer = isLayered ? NormalTable.cumulative((t[n] - edgeMm + known.layerMm()) / sigma) : 1;
            double edge = NormalTable.cumulative((t[n] - edgeMm) / sigma);
            double front = NormalTable.cumulative((t[n] - edgeMm - gapMm) / sigma);
            double deep = NormalTable.cumulative((t[n] - edgeMm - gapMm - frontMm) / sigma);
            double rest = hu[n] - fluid * (edge - front) - (isLayered ? known.coreHu() * (1 - layer) : 0);
            add(inverseSd[n] * inverseSd[n], layer - edge, front - deep, deep, rest);
        }
        boolean solved =
                BoundedLeastSquares.Cholesky.factor(normal, 3) && BoundedLeastSquares.Cholesky.solve(normal, right, 3);
        x[LayeredProfile.EDGE] = edgeMm;
        x[LayeredProfile.GAP] = gapMm;
        x[LayeredProfile.PLATEAU] = solved ? right[0] : hu[0];
        x[LayeredProfile.EXCESS] = solved ? right[1] - right[2] : 0;
        x[LayeredProfile.THICKNESS] = frontMm;
        x[LayeredProfile.DEEP] = solved ? right[2] : hu[count - 1];
        x[LayeredProfile.FLUID] = fluid;
        x[LayeredProfile.SIGMA] = sigma;
    }

    private void ridge() {
        boolean given = known.plateau().isGiven();
        double sd = Math.max(1, known.plateau().sd());
        double weight = given ? 1 / (sd * sd) : RIDGE * RIDGE;
        normal[0][0] = weight;
        right[0] = given ? weight * known.plateau().mean() : 0;
        normal[1][0] = 0;
        normal[1][1] = RIDGE;
        normal[2][0] = 0;
        normal[2][1] = -RIDGE;
        normal[2][2] = RIDGE * 1.001;
        right[1] = 0;
        right[2] = 0;
    }

    private void add(double weight, double plateau, double front, double deep, double rest) {
        normal[0][0] += weight * plateau * plateau;
        normal[1][0] += weight * plateau * front;
        normal[1][1] += weight * front * front;
        normal[2][0] += weight * plateau * deep;
        normal[2][1] += weight * front * deep;
        normal[2][2] += weight * deep * deep;
        right[0] += weight * plateau * rest;
        right[1] += weight * front * rest;
        right[2] += weight * deep * rest;
    }
}
