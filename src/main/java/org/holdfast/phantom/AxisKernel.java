package org.holdfast.phantom;

/**
 * Weights that turn fine samples along one axis into voxels: a box as wide as the voxel blurred by a Gaussian, taken at
 * the samples. Sampling such a smooth kernel is as good as integrating it as long as the step is under 1.2 σ (the error
 * of the midpoint rule falls as exp(−2π²σ²/step²)).
 */
final class AxisKernel {

    private final int[] first;
    private final float[][] weights;

    private AxisKernel(int[] first, float[][] weights) {
        this.first = first;
        this.weights = weights;
    }

    /** How far from a voxel's centre a sample may count, mm. */
    static double reachMm(double voxelMm, double sigmaMm) {
        return 0.5 * voxelMm + BlurReach.DEVIATIONS * sigmaMm;
    }

    /**
     * @param centresMm centres of the voxels, measured from the first fine sample
     * @param samples number of fine samples; all that a voxel needs must exist
     * @param stepMm distance of the fine samples
     * @param voxelMm width of the voxel's box
     * @param sigmaMm standard deviation of the Gaussian
     */
    static AxisKernel of(double[] centresMm, int samples, double stepMm, double voxelMm, double sigmaMm) {
        double reach = reachMm(voxelMm, sigmaMm);
        int[] first = new int[centresMm.length];
        float[][] weights = new float[centresMm.length][];
        for (int n = 0; n < centresMm.length; n++) {
            int from = Math.max(0, (int) Math.ceil((centresMm[n] - reach) / stepMm));
            int to = Math.min(samples - 1, (int) Math.floor((centresMm[n] + reach) / stepMm));
            double[] raw = new double[to - from + 1];
            double sum = 0;
            for (int m = from; m <= to; m++) {
                double at = m * stepMm - centresMm[n];
                raw[m - from] = GaussianStep.below((at + 0.5 * voxelMm) / sigmaMm)
                        - GaussianStep.below((at - 0.5 * voxelMm) / sigmaMm);
                sum += raw[m - from];
            }
            first[n] = from;
            weights[n] = new float[raw.length];
            for (int m = 0; m < raw.length; m++) {
                weights[n][m] = (float) (raw[m] / sum);
            }
        }
        return new AxisKernel(first, weights);
    }

    /** Index of the first fine sample of a voxel. */
    int first(int voxel) {
        return first[voxel];
    }

    /** Weights of a voxel's samples, in order; they add up to 1. The kernel's own array. */
    float[] weights(int voxel) {
        return weights[voxel];
    }
}
