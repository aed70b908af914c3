package org.holdfast.measure;

/**
 * The voxels round a stretch of a screw, gathered in rings of equal distance from its axis: how many, their HU, and for
 * discs of a table of radii the share that blur leaves of them in these very voxels. Means of both belong together, so no
 * error comes from the width of a ring or from where in it the voxels happen to lie. Not thread-safe.
 */
final class RingSums {

    static final double WIDTH_MM = 0.1;

    final int[] count;
    final int[] clipped;
    final double[] hu;
    final double[] squares;
    final double[] rho;
    final float[][] shares;

    RingSums(int rings, int radii) {
        count = new int[rings];
        clipped = new int[rings];
        hu = new double[rings];
        squares = new double[rings];
        rho = new double[rings];
        shares = new float[rings][radii];
    }

    int rings() {
        return count.length;
    }

    /** Adds a voxel; its shares are added by the caller. */
    void add(int ring, double rhoMm, double voxelHu, boolean isClipped) {
        count[ring]++;
        clipped[ring] += isClipped ? 1 : 0;
        hu[ring] += voxelHu;
        squares[ring] += voxelHu * voxelHu;
        rho[ring] += rhoMm;
    }

    /** Adds the voxels of another stretch or sector, of the rings before one. */
    void add(RingSums other, int toRing) {
        for (int n = 0; n < Math.min(toRing, count.length); n++) {
            count[n] += other.count[n];
            clipped[n] += other.clipped[n];
            hu[n] += other.hu[n];
            squares[n] += other.squares[n];
            rho[n] += other.rho[n];
            for (int m = 0; m < shares[n].length; m++) {
                shares[n][m] += other.shares[n][m];
            }
        }
    }

    /** Mean HU of the voxels of rings [from, to); NaN if there is none. */
    double meanHu(int from, int to) {
        double sum = 0;
        int voxels = 0;
        for (int n = Math.max(0, from); n < Math.min(to, count.length); n++) {
            sum += hu[n];
            voxels += count[n];
        }
        return voxels == 0 ? Double.NaN : sum / voxels;
    }
}
